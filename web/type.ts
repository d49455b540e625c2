// How large the letters are on this device: as the browser has them, half as large again, or
// twice. One button on every page goes through the three. It needs no core: the static page can
// be read in large letters while the core is on its way, and when it never comes.
//
// The style sheet does it (style/type.css), by <html data-type="large">; it also shows the
// button's words for what comes next.

import { keep, kept } from "./kept.js";
import { say } from "./say.js";

const key = "type";

const sizes = ["", "large", "largest"] as const;

/** Shows the letters at the size that was chosen here. */
export function showType(): void {
  set(kept().find(([k]) => k === key)?.[1] ?? "");
}

/** Listens for the button. */
export function listenForType(): void {
  document.addEventListener("click", (event) => {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>("[data-type-switch]") : null;
    if (!button) return;
    const from = button.getBoundingClientRect().top;
    const size = next(document.documentElement.dataset.type ?? "");
    set(size);
    keep(size === "" ? [] : [[key, size]], size === "" ? [key] : []);
    // The button stays where the thumb is.
    window.scrollBy(0, button.getBoundingClientRect().top - from);
    say(button.getAttribute(`data-said-${size === "" ? "normal" : size}`) ?? "");
  });
}

/** The size after that one; after the largest, and after one that is none of ours, the first. */
const next = (size: string): string => sizes[(sizes.findIndex((s) => s === size) + 1) % sizes.length] ?? "";

function set(size: string): void {
  const root = document.documentElement;
  if (size === "large" || size === "largest") root.dataset.type = size;
  else delete root.dataset.type;
}
