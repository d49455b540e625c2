// The folds with a QR code in them: <details data-qr="FRAGMENT" data-label="…">. The code
// of the page's address with that fragment is drawn into the fold's [data-code] when it is
// opened; where the drawing part cannot be loaded, its [data-no-code] says so.

import { pageAddress } from "./address.js";

/** Draws whenever somebody opens such a fold. */
export function listenForCodes(): void {
  // "toggle" does not bubble, so it is caught on its way down.
  document.addEventListener("toggle", (event) => {
    if (event.target instanceof HTMLDetailsElement) void drawInto(event.target);
  }, true);
}

/** Draws the codes of the folds that are open: a patch has taken the old ones away. */
export function drawCodes(app: HTMLElement): void {
  for (const fold of app.querySelectorAll<HTMLDetailsElement>("details[data-qr][open]")) void drawInto(fold);
}

async function drawInto(fold: HTMLDetailsElement): Promise<void> {
  const { qr, label } = fold.dataset;
  const place = fold.querySelector("[data-code]");
  if (!fold.open || !qr || !place) return;
  const text = `${pageAddress()}#${qr}`;
  try {
    const { drawCode } = await import("./qr.js");
    place.replaceChildren(drawCode(text, label ?? ""));
  } catch (fault) {
    console.error(fault);
    fold.querySelector("[data-no-code]")?.removeAttribute("hidden");
  }
}
