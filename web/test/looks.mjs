// What every screen has to stand: no finding of axe, no scrolling sideways, and nothing
// that is too small for a thumb. For Chromium only: axe's rules do not depend on the engine.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { top } from "./compile.mjs";

/** Looks at the screen as it is, with all folds open, by day and at night. */
export async function looksRight(page) {
  const axe = await readFile(join(top, "node_modules/axe-core/axe.min.js"), "utf8");
  await page.evaluate(() => document.querySelectorAll("details").forEach((d) => (d.open = true)));
  await page.until(() => document.querySelector('details[data-fold="left"]') === null);
  await page.evaluate(`() => { ${axe}; }`);
  assert.deepEqual(await findings(page), []);
  for (const [width, height] of [[320, 640], [360, 740], [1280, 800]]) {
    await page.setSize(width, height);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= width, `${wide} px wide on a screen of ${width} px`);
  }
  assert.deepEqual(await smallTargets(page), []);
  await page.setDark(true); // of all that axe looks at, only colours are others now
  assert.deepEqual(await findings(page, "color-contrast"), []);
}

/** What axe finds, of one rule or of all. */
const findings = (page, only) =>
  page.evaluate(async (rule) => {
    const found = await window.axe.run(document, { resultTypes: ["violations"], ...(rule ? { runOnly: [rule] } : {}) });
    return found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(" ")).slice(0, 4).join(", ")}`);
  }, only);

/** Buttons, boxes and links that stand on their own and are lower than 48 px: more than WCAG 2.2 asks for (2.5.5: 44). */
const smallTargets = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll("#app a, #app button, #app summary, #app textarea, #app .pick, #app .tick label, #app input:not([type=hidden], [type=checkbox], [type=radio])")]
      .filter((e) => e.getClientRects().length > 0 && !e.closest("#problems, .place, .ask p, .sign.today p"))
      .filter((e) => e.getBoundingClientRect().height < 47.5)
      .map((e) => `${e.tagName} ${e.textContent.trim().slice(0, 30)} ${e.getBoundingClientRect().height}`));
