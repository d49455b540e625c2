// What all engines share: how a function crosses into the page, waiting, and values
// that no keyboard types in the same way everywhere.

import { setTimeout as pause } from "node:timers/promises";

/** The text of an expression that calls fn with args. fn is a function or its text. */
export function call(fn, args) {
  return `(${fn})(...${JSON.stringify(args)})`;
}

/** What drivers say when the page that was asked loads itself anew meanwhile. */
const anew = /context|navigat|discarded|realm|could not parse script result/i;

/**
 * Asks until the answer is true, at most 30 s: machines that run tests are slow at times. A page
 * that loads itself anew meanwhile has not answered yet.
 */
export async function until(page, fn, args) {
  const end = Date.now() + 30_000;
  // An element is an answer, but no engine hands one over as JSON.
  const asked = `async (...args) => { const it = await (${fn})(...args); return it instanceof Node ? true : it; }`;
  for (;;) {
    const answer = await page.evaluate(asked, ...args).catch((fault) => {
      if (Date.now() > end || !anew.test(fault.message)) throw fault;
    });
    if (answer) return answer;
    if (Date.now() > end) throw new Error(`${page.engine}: waited 30 s for ${fn} with ${JSON.stringify(args)}`);
    await pause(30);
  }
}

/** What a person gets who pastes: into a field of its own, since no script may read it. */
export async function clipboard(page) {
  await page.evaluate(`() => {
    const field = document.createElement("textarea");
    field.id = "pasted";
    document.body.append(field);
    field.focus({ preventScroll: true });
  }`);
  await page.press("Control+v");
  await until(page, `() => document.getElementById("pasted").value !== ""`, []);
  return page.evaluate(`() => {
    const field = document.getElementById("pasted");
    field.remove();
    return field.value;
  }`);
}

/** Drivers bring things just into view, which can be under the bar at the bottom. */
export const toTheMiddle = `(selector) => { document.querySelector(selector)?.scrollIntoView({ block: "center" }); }`;

/** Kinds of field that are set and not typed: how they take keys depends on the language. */
export const setDirectly = `(selector, value) => {
  const field = document.querySelector(selector);
  if (!field) throw new Error("no element matches " + selector);
  const kinds = ["date", "time", "datetime-local", "month", "week", "number", "range", "color", "select-one"];
  if (!kinds.includes(field.type)) { field.focus(); field.select(); return false; }
  field.focus();
  field.value = value;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  field.dispatchEvent(new Event("change", { bubbles: true }));
  return true;
}`;

/** Throws what the page threw and nobody took. */
export function noErrorsLeft(engine, errors) {
  if (errors.length > 0) throw new Error(`${engine}: uncaught in the page: ${errors.join("\n")}`);
}

/** Holds the page's clock still at one instant; new Date(…) with arguments still works. */
export function pinClock(instant) {
  return `{
    const fixed = ${Date.parse(instant)};
    const Real = Date;
    globalThis.Date = class extends Real {
      constructor(...args) { if (args.length === 0) super(fixed); else super(...args); }
      static now() { return fixed; }
    };
  }`;
}
