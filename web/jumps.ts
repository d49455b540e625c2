// Jumps inside the page work from the first moment, also while the core is on its
// way or when it never comes: "When to call" must not depend on it, and a browser's
// own jump would put the id where the address holds the plan.

import { jumpTo } from "./focus.js";
import { fillFolds } from "./folds.js";

/** Listens for taps on links to something on the page. */
export function listenForJumps(): void {
  document.addEventListener("click", (event) => {
    const link = plainLink(event);
    if (!link || link.hasAttribute("data-path")) return;
    const id = (link.getAttribute("href") ?? "").slice(1);
    let target = elementFor(id);
    if (!target) {
      fillFolds(); // it may be in one
      target = elementFor(id);
    }
    if (!target) return;
    event.preventDefault();
    jumpTo(target);
  });
}

/** The link to "#…" that was tapped. With a key held the person wants a new tab. */
export function plainLink(event: MouseEvent): HTMLAnchorElement | null {
  const plain = event.button === 0 && !(event.metaKey || event.ctrlKey || event.shiftKey || event.altKey);
  if (!plain || event.defaultPrevented || !(event.target instanceof Element)) return null;
  return event.target.closest<HTMLAnchorElement>('a[href^="#"]');
}

function elementFor(fragment: string): HTMLElement | null {
  if (fragment === "") return null;
  try {
    return document.getElementById(fragment) ?? document.getElementById(decodeURIComponent(fragment));
  } catch {
    return null; // a "%" that begins no escape names nothing
  }
}
