// Moving the focus, so that keyboards and screen readers follow what happened.

import { settleNow } from "./replace.js";

/** Focuses the element with that id and brings it into view. Does nothing without one. */
export function focusOn(id: string): void {
  const element = id === "" ? null : document.getElementById(id);
  if (!element) return;
  makeFocusable(element);
  if (!element.matches("h1")) settleNow();
  reveal(element);
  element.focus({ preventScroll: true });
  const shown = whole(element);
  if (element.matches("h1")) window.scrollTo(0, 0);
  else if (!inView(shown)) shown.scrollIntoView({ block: "start" });
}

/** A jump inside the page: scrolls there even if the place is in view already. */
export function jumpTo(element: HTMLElement): void {
  makeFocusable(element);
  settleNow();
  reveal(element);
  whole(element).scrollIntoView({ block: "start" });
  element.focus({ preventScroll: true });
}

// A field alone at the upper edge would hide its own question and what is wrong with it.
function whole(element: HTMLElement): HTMLElement {
  return element.closest<HTMLElement>(".field") ?? element;
}

// What is jumped to may be folded away, or be the fold itself.
function reveal(element: HTMLElement): void {
  for (let at: Element | null = element; at; at = at.parentElement)
    if (at instanceof HTMLDetailsElement) at.open = true;
}

// Headings take no focus by themselves. tabindex -1 lets a script put it there without
// adding a stop for the Tab key.
function makeFocusable(element: HTMLElement): void {
  if (element.tabIndex < 0 && !element.hasAttribute("tabindex")) element.setAttribute("tabindex", "-1");
}

function inView(element: HTMLElement): boolean {
  const { top, bottom } = element.getBoundingClientRect();
  return top >= 0 && bottom <= window.innerHeight;
}
