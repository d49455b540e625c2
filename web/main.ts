// The page's script. A first, small one (begin.ts) has begun what must not wait for it.

import { stalled } from "./arrival.js";
import { loadCore, type Core, type First } from "./core.js";
import { coreFiles, needsWhole } from "./files.js";
import { fillFirst, listenForFirst } from "./first.js";
import { firstLines, firstSteps } from "./firststeps.js";
import { offerHome } from "./home.js";
import { listenForJumps } from "./jumps.js";
import { guardLeaving } from "./kept.js";
import { listenForKeys } from "./keys.js";
import { speakOwnLanguage } from "./language.js";
import { noteLast } from "./last.js";
import { keepOffline } from "./offline.js";
import { listenForPrint, unfoldForPaper } from "./paper.js";
import { startShell } from "./shell.js";
import { keepAsItStands } from "./stood.js";
import { listenForRescue, trouble } from "./trouble.js";
import { listenForType } from "./type.js";
import { Unreachable } from "./unreachable.js";
import { Whole } from "./whole.js";

async function main(): Promise<void> {
  if (!globalThis.newelBegun) {
    firstSteps();
    firstLines();
  }
  listenForType();
  listenForFirst();
  listenForJumps();
  listenForRescue();
  unfoldForPaper();
  listenForPrint();
  const app = document.getElementById("app");
  const { near, whole } = coreFiles();
  if (!app) throw new Error("the page lacks #app");
  speakOwnLanguage(fillFirst);
  listenForKeys(app);
  offerHome();
  guardLeaving();
  keepAsItStands();
  const rest = new Whole(whole);
  const loads = (first: First): Promise<Core> => untilReached(() => (
    needsWhole(location.hash.slice(1)) ? rest.load(first) : loadCore(near, "near", first)));
  await startShell(app, loads, rest);
  noteLast();
  void keepOffline();
}

/** Tries until there is a signal. What the page can say without the core stands there meanwhile. */
async function untilReached(load: () => Promise<Core>): Promise<Core> {
  for (;;) {
    try {
      return await load();
    } catch (fault) {
      if (!(fault instanceof Unreachable)) throw fault;
      console.warn(fault);
      stalled(true);
      await signal();
      stalled(false);
    }
  }
}

/** Waits until the device says that it has a network again, or for a while: it is not always right. */
function signal(): Promise<void> {
  return new Promise((resolve) => {
    window.addEventListener("online", () => resolve(), { once: true });
    window.setTimeout(resolve, 10_000);
  });
}

main().catch((fault: unknown) => {
  // The static guide stays on the screen; the sentence beside it says what is missing.
  console.error(fault);
  document.getElementById("waiting")?.remove();
  trouble("core");
  // A newer version of the page may be the one that starts: else this one would be shown at each opening.
  void keepOffline();
});
