// What an answer has the browser do that takes a while: lock a link, open a locked one, remove everything.
// Each ends in a question for the core, which says on its page what came of it.

import { lock, unlock } from "./lock.js";
import type { Question } from "./request.js";
import type { Phrased } from "./response.js";
import { wipe } from "./wipe.js";

/** The page with the locked link. The passphrase goes along, to be read out beside the link that it opens. */
export async function lockedPage({ phrase, fragment }: Phrased): Promise<Question> {
  try {
    return { path: "/link", fragment, fields: [["locked", await lock(fragment, phrase)], ["phrase", phrase]] };
  } catch (fault) {
    console.error(fault);
    return { path: "/link", fragment, fields: [["unable", "1"], ["phrase", phrase]] };
  }
}

/** The plan of a locked link, or the page that says why it does not open. */
export async function unlockedPage({ phrase, fragment }: Phrased): Promise<Question> {
  const opened = await unlock(fragment, phrase).catch((fault: unknown) => {
    console.error(fault);
    return "unable" as const;
  });
  if (typeof opened === "string") return { path: "/unlock", fragment, fields: [[opened, "1"], ["phrase", phrase]] };
  return { path: "/", fragment: opened.plain, fields: [] };
}

/** The page that says whether everything of this page is gone from the device. */
export async function wipedPage(): Promise<Question> {
  const done = await wipe().catch((fault: unknown) => {
    console.error(fault);
    return false;
  });
  return { path: "/device", fragment: "", fields: [[done ? "gone" : "left", "1"]] };
}
