// The plan that was looked at last on this device. The icon on the home screen opens the page at
// "#last" (build/frame/manifest.go); whoever types the page's address gets its front with all plans.

import { readHead } from "./head.js";
import { keep, kept } from "./kept.js";

/** The word in place of a plan's fragment; too short for a link. */
const word = "last";

/** Writes the last plan's link into the address where that says "#last"; none where there is no plan. */
export function openLast(): void {
  if (location.hash !== `#${word}`) return;
  const fragment = lastPlan();
  history.replaceState(history.state, "", fragment === undefined ? location.pathname + location.search : `#${fragment}`);
}

/** This device's copy of the plan that was looked at last, or of the only one it has. */
function lastPlan(): string | undefined {
  const all = new Map(kept());
  const plans = [...all].filter(([key, value]) => key.startsWith("plan.") && value !== "");
  const last = all.get(`plan.${all.get(word) ?? ""}`);
  return last ? last : plans.length === 1 ? plans[0]?.[1] : undefined;
}

/** Notes which plan is looked at, when the page goes out of sight. */
export function noteLast(): void {
  note();
  document.addEventListener("visibilitychange", note);
  window.addEventListener("pagehide", note);
}

function note(): void {
  const number = readHead(location.hash.slice(1))?.number.toString(16); // core/app/device.go, planKey
  if (number === undefined) return;
  const all = new Map(kept());
  // An example is no plan of this person's, and of a plan that is not kept here there is nothing to open.
  if (all.has(`demo.${number}`) || !all.has(`plan.${number}`) || all.get(word) === number) return;
  keep([[word, number]], []);
}
