// Other tabs of this page on the same device. They share the storage, and each holds a copy of its
// plan in its address. A browser tells every tab but the one that wrote (HTML, 12.2.2, "storage").

import { place } from "./address.js";
import { readHead } from "./head.js";
import { dataPrefix, storedElsewhere } from "./kept.js";

const wiped = "newel-wiped";

/** How long the first look waits, in ms: one change writes several entries. */
const soon = 50;

/**
 * How far apart looks are at most, in ms. Two tabs of two releases may write one plan in two ways,
 * each in place of the other's: then it must not become a race.
 */
const apart = 5000;

/** Within how many ms another change counts as one of a series. */
const series = 10_000;

/**
 * Has join called when another tab has stored the plan that is in this address otherwise than it stands
 * there: what both did at the same moment would else be in one of the two places only. removed is called
 * when another tab has removed that plan, which the next change here would store again; gone when it
 * has removed everything.
 */
export function listenForTabs(join: () => void, removed: () => void, gone: () => void): void {
  let timer = 0;
  let wait = soon;
  let last = -series;
  window.addEventListener("storage", ({ key, newValue }) => {
    if (key === wiped && newValue !== null) {
      window.clearTimeout(timer);
      timer = 0;
      gone();
      return;
    }
    const { fragment } = place();
    if (key !== null) storedElsewhere(key, newValue, fragment);
    const number = readHead(fragment)?.number.toString(16); // core/app/device.go, planKey
    if (number === undefined || key !== `${dataPrefix}plan.${number}`) return;
    if (newValue === null) {
      window.setTimeout(() => { if (isGone(key) && place().fragment === fragment) removed(); }, soon);
      return;
    }
    if (newValue === fragment || timer !== 0) return;
    const now = performance.now();
    wait = now - last < series ? Math.min(2 * wait, apart) : soon;
    last = now;
    timer = window.setTimeout(() => { timer = 0; join(); }, wait);
  });
}

function isGone(key: string): boolean {
  try {
    return localStorage.getItem(key) === null;
  } catch {
    return false;
  }
}

/** Tells the other tabs that everything is being removed. Leaves nothing behind. */
export function tellWiped(): void {
  try {
    localStorage.setItem(wiped, String(Date.now()));
    localStorage.removeItem(wiped);
  } catch {
    // Storage is full or blocked; wipe tries again.
  }
}
