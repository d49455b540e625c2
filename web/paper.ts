// On paper nothing can be unfolded: the lists and what is kept up every day are opened
// for printing and folded again afterwards. Reasons stay folded unless the reader has
// opened them; all of them together are thirty pages. A button with data-print prints.

import { drawCodes } from "./codes.js";
import { fillFolds } from "./folds.js";

/** Opens what paper needs while it is printed. */
export function unfoldForPaper(): void {
  let opened: HTMLDetailsElement[] = [];
  window.addEventListener("beforeprint", () => {
    fillFolds();
    opened = [...document.querySelectorAll<HTMLDetailsElement>("details.list:not([open]), details.daily:not([open]), details.overdue:not([open]), details.far:not([open])")];
    for (const details of opened) details.open = true;
  });
  window.addEventListener("afterprint", () => {
    for (const details of opened) details.open = false;
  });
}

/** Prints where a button asks for it, once the codes are on the sheet. */
export function listenForPrint(): void {
  document.addEventListener("click", (event) => {
    if (event.target instanceof Element && event.target.closest("button[data-print]")) void printSheet();
  });
}

async function printSheet(): Promise<void> {
  const app = document.getElementById("app");
  if (app?.querySelector("[data-code]:empty")) await drawCodes(app);
  window.print();
}
