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
});

const css = await readFile(new URL("../../style/tokens.css", import.meta.url), "utf8");
const [, light, dark] = css.split(":root");
const tokens = (text) => Object.fromEntries([...text.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map((m) => [m[1], m[2]]));

const grounds = ["paper", "card", "note-paper", "alarm-paper"];
const pairs = [
  ...grounds.map((ground) => ["ink", ground, 7]),
  ["soft", "paper", 7], ["soft", "card", 7],
  ["oak-ink", "paper", 7], ["oak-ink", "card", 7],
  ["act", "paper", 7], ["act", "card", 7], ["act", "note-paper", 7], ["act-ink", "act", 7],
  ["alarm", "paper", 7], ["alarm", "card", 7], ["alarm", "alarm-paper", 7],
  ["oak", "paper", 3], ["oak", "card", 3], ["line", "paper", 3], ["line", "card", 3], ["focus", "paper", 3], ["focus", "card", 3],
];

for (const [name, text] of [["light", light], ["dark", dark]])
  test(`${name}: every pair of colours that meet can be told apart`, () => {
    const colour = tokens(text);
    assert.ok(Object.keys(colour).length >= 14);
    for (const [front, ground, least] of pairs) {
      const ratio = contrast(colour[front], colour[ground]);
      assert.ok(ratio >= least, `${front} on ${ground} is ${ratio.toFixed(2)}:1, less than ${least}:1`);
    }
  });
