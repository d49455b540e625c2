// Puts another page in place of the one that stands. A plan's page is a dozen screens high on a phone,
// and a slow one needs longer to lay those out than for all the rest; so its first frame is that of what
// stands at the top, and the others follow when that is drawn; style/base.css has what ".later" means.
//
// Only what is surely out of view waits: a browser draws what waits and is in view a frame too late.

import { firstInView, keepInPlace } from "./inview.js";

/** What may wait. */
const parts = ".day, .duties, .who-helps, .lists, .signs, .settings";

/** So many elements, without those in closed folds, fill more than the first screen of one column. */
const firstScreen = 250;

/** How long after the first frame the rest is laid out, in ms. */
const pause = 50;

/** Lays out what waits. */
let settle = (): void => {};

/** Has nothing wait any longer: somebody goes to a place that is further down. */
export function settleNow(): void {
  settle();
}

/** Whether nothing of the next page may wait. */
let atOnce = false;

/** Has nothing of the next page wait: it will be scrolled to a place in the whole of it. */
export function nothingWaits(): void {
  atOnce = true;
}

/** Puts the nodes of next into app. What is changed after that and is not the core's is done in unwatched. */
export function replace(app: HTMLElement, next: ParentNode, unwatched: (work: () => void) => void): void {
  const waits = atOnce || document.hidden ? [] : later(next); // no frame comes to a page that nobody sees
  atOnce = false;
  for (const part of waits) part.classList.add("later");
  app.replaceChildren(...next.childNodes);
  const mine = settle = (): void => {
    if (settle !== mine) return; // done, or another page has come
    settle = () => {};
    const anchor = firstInView(app);
    unwatched(() => {
      for (const part of waits) {
        part.classList.remove("later");
        if (part.className === "") part.removeAttribute("class");
      }
    });
    if (anchor) keepInPlace(anchor);
  };
  if (waits.length > 0) requestAnimationFrame(() => setTimeout(mine, pause));
}

/** The parts that begin after the first screen. */
function later(next: ParentNode): Element[] {
  const from = after(next, firstScreen);
  if (!from) return [];
  return [...next.querySelectorAll(parts)].filter((part) => from.compareDocumentPosition(part) & Node.DOCUMENT_POSITION_FOLLOWING);
}

/** The element that so many others stand before, or undefined. */
function after(next: ParentNode, most: number): Element | undefined {
  let count = 0;
  const walk = (element: Element): Element | undefined => {
    if (++count > most) return element;
    const closed = element instanceof HTMLDetailsElement && !element.open;
    for (const child of closed ? [] : element.children) {
      const found = walk(child);
      if (found) return found;
    }
    return undefined;
  };
  for (const child of next.children) {
    const found = walk(child);
    if (found) return found;
  }
  return undefined;
}
