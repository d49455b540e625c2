// The colours of tokens.css, checked with the published formula.
// Source: WCAG 2.2 (W3C Recommendation, 5 October 2023), relative luminance and
// contrast ratio; 1.4.6 (AAA text, 7:1) and 1.4.11 (lines and posts, 3:1).

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";

function luminance(hex) {
  const [r, g, b] = [1, 3, 5]
    .map((at) => parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a, b) {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

test("the formula gives the values that follow from the standard's own thresholds", () => {
  assert.equal(contrast("#000000", "#ffffff"), 21);
  for (const [colour, ratio] of [["#767676", 4.54], ["#777777", 4.48], ["#949494", 3.03]])
    assert.equal(contrast(colour, "#ffffff").toFixed(2), ratio.toFixed(2), colour);
  assert.ok(contrast("#595959", "#ffffff") >= 7 && contrast("#5a5a5a", "#ffffff") < 7);
  assert.ok(contrast("#949494", "#ffffff") >= 3 && contrast("#959595", "#ffffff") < 3);
});

const css = await readFile(new URL("../../style/tokens.css", import.meta.url), "utf8");

/** The sets of colours by the condition under which they hold. */
const sets = new Map(css.split(":root {").slice(1).map((text, i) => {
  const before = css.split(":root {")[i];
  const condition = before.slice(before.lastIndexOf("}") + 1).match(/@media ([^{]*) \{/)?.[1] ?? "";
  return [condition, Object.fromEntries([...text.slice(0, text.indexOf("}")).matchAll(/--([\w-]+): ([^;]+);/g)].map((m) => [m[1], m[2]]))];
}));

// What has letters on it, and what text may be on each: times and warnings are of --ink and
// --alarm, so that all of these ask for 7:1.
const grounds = ["paper", "card", "note-paper", "alarm-paper"];
const who = ["who-1", "who-2", "who-3", "who-4"];
const pairs = [
  ...grounds.map((ground) => ["ink", ground, 7]),
  ...["paper", "card", "note-paper"].map((ground) => ["soft", ground, 7]),
  ["oak-ink", "paper", 7], ["oak-ink", "card", 7],
  ["act", "paper", 7], ["act", "card", 7], ["act", "note-paper", 7], ["act-ink", "act", 7],
  ["alarm", "paper", 7], ["alarm", "card", 7], ["alarm", "alarm-paper", 7],
  ["oak", "paper", 3], ["oak", "card", 3], ["line", "paper", 3], ["line", "card", 3], ["focus", "paper", 3], ["focus", "card", 3],
  ...who.flatMap((w) => [[w, "paper", 3], [w, "card", 3], ["who-ink", w, 7]]),
];

const colours = ["", "(prefers-color-scheme: dark)", "(prefers-contrast: more)", "(prefers-contrast: more) and (prefers-color-scheme: dark)"];
const forced = "(forced-colors: active)";

test("there are these sets of colours, and each has them all", () => {
  assert.deepEqual([...sets.keys()].sort(), [...colours, forced].sort());
  const names = Object.keys(sets.get("")).sort();
  assert.ok(names.length >= 19);
  for (const [condition, set] of sets) assert.deepEqual(Object.keys(set).sort(), names, condition);
});

for (const condition of colours)
  test(`${condition || "by day"}: every pair of colours that meet can be told apart`, () => {
    const set = sets.get(condition);
    for (const [front, ground, least] of pairs) {
      const ratio = contrast(set[front], set[ground]);
      assert.ok(ratio >= least, `${front} on ${ground} is ${ratio.toFixed(2)}:1, less than ${least}:1`);
    }
  });

// CSS Color 4, section 6.2: the names of the device's own colours, and which go together.
test("where the device gives the colours, text and its ground are a pair of its own", () => {
  const set = sets.get(forced);
  const grounds4 = new Set(["Canvas"]);
  const onCanvas = new Set(["CanvasText", "LinkText", "GrayText", "Highlight"]);
  for (const [front, ground] of pairs) {
    const [a, b] = [set[front], set[ground]];
    assert.ok((grounds4.has(b) && onCanvas.has(a)) || (grounds4.has(a) && onCanvas.has(b)), `${front} (${a}) on ${ground} (${b})`);
  }
});

// What is not in tokens.css is not looked at above.
test("no other part of the style holds a colour, but black and its grey on white for paper", async () => {
  const { readdir } = await import("node:fs/promises");
  const folder = new URL("../../style/", import.meta.url);
  for (const name of await readdir(folder)) {
    if (name === "tokens.css") continue;
    const text = (await readFile(new URL(name, folder), "utf8")).replace(/\/\*.*?\*\//gs, "");
    const odd = [...text.matchAll(/#[0-9a-f]{3,8}\b(?=[^{}]*;)|\b(?:rgb|hsl|oklch|lab)a?\(/gi)].map((m) => m[0]).filter((c) => !/^#(000(000)?|fff(fff)?|767676)$/i.test(c));
    assert.deepEqual(odd, [], name);
  }
});
