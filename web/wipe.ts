// Removes everything of this page from the device, and nothing of anybody else's on the same host:
// what is stored, what was typed and not sent, and the page as the worker keeps it.

import { dropDrafts } from "./draft.js";
import { wipeKept } from "./kept.js";
import { removeOffline } from "./offline.js";
import { tellWiped } from "./tabs.js";

/** Removes it; false where the browser kept some of it. Other open tabs are told, and do their part. */
export async function wipe(): Promise<boolean> {
  tellWiped();
  const kept = wipeKept();
  tellWiped(); // once more: where there was no room the first time, there is now
  const drafts = dropDrafts();
  const offline = await removeOffline();
  return kept && drafts && offline;
}

/** What a tab has to do by itself when another one has removed everything. */
export function wipedElsewhere(): void {
  wipeKept();
  dropDrafts();
  void removeOffline();
}
