// What has a QR code in it: <details data-qr="FRAGMENT" data-label="…">, or another element
// with these. The code of the page's address with that fragment is drawn into its [data-code]:
// at once, or when the fold is opened. Where the drawing part cannot be loaded, its
// [data-no-code] says so.

import { pageAddress } from "./address.js";

/** Draws whenever somebody opens such a fold. */
export function listenForCodes(): void {
  // "toggle" does not bubble, so it is caught on its way down.
  document.addEventListener("toggle", (event) => {
    if (event.target instanceof HTMLDetailsElement) void drawInto(event.target);
  }, true);
}

/** Draws the codes that are in view: a patch has taken the old ones away. */
export async function drawCodes(app: HTMLElement): Promise<void> {
  await Promise.all([...app.querySelectorAll<HTMLElement>("[data-qr]")].map(drawInto));
}

async function drawInto(fold: HTMLElement): Promise<void> {
  const { qr, label } = fold.dataset;
  const place = fold.querySelector("[data-code]");
  if ((fold instanceof HTMLDetailsElement && !fold.open) || !qr || !place) return;
  const text = `${pageAddress()}#${qr}`;
  try {
    const { drawCode } = await import("./qr.js");
    place.replaceChildren(drawCode(text, label ?? ""));
  } catch (fault) {
    console.error(fault);
    fold.querySelector("[data-no-code]")?.removeAttribute("hidden");
  }
}
