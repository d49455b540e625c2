// What has to be done before anything is drawn, or else what is drawn would move. begin.ts does it, and
// main.ts where begin.ts could not.

import { fillFirst } from "./first.js";
import { folderAddress, keepChosen } from "./language.js";
import { openLast } from "./last.js";
import { showType } from "./type.js";

/** Before the first question to a core: what is chosen here, and which plan and page it is. */
export function firstSteps(): void {
  showType();
  keepChosen();
  folderAddress();
  openLast();
}

/** Once the page's head is there: what it says of the link, and that the rest is on its way. */
export function firstLines(): void {
  // Hidden in the page itself, so that nobody is told to wait where scripts are off.
  document.getElementById("waiting")?.removeAttribute("hidden");
  fillFirst();
}
