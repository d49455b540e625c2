// The sheets for paper: made to PDF by Chromium on both sizes of paper and in both languages, and
// looked at with other programs. In all engines: the screens, and that the button prints.

import assert from "node:assert/strict";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { at, go, open, phone, said } from "../family.mjs";
import { looksRight } from "../looks.mjs";
import { about, drawnOn, inkOf, pictureOf, textOf, wordsOf } from "../pdf.mjs";
import { readCodes } from "../zbar.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const folder = mkdtempSync(join(tmpdir(), "newel-paper-"));
after(() => rmSync(folder, { recursive: true }));

// What each sheet of the example may take: a long list of dates has a page for twelve or so. In
// Debian's font, which is wide; the guide is as long as its words.
const sheets = { card: [1, 1], "card-large": [1, 1], pack: [1, 1], fridge: [1, 2], cover: [1, 2], "helper.1": [1, 3], "helper.2": [1, 3], guide: [8, 20] };

/** ISO 216 and ANSI/ASME Y14.1, in points. */
const papers = { Letter: [612, 792], A4: [595.3, 841.9] };

/** 12 mm, in points, less the rounding of a font's edges. */
const margin = (12 / 25.4) * 72 - 1.5;

/** Without spaces and without what only the style puts there: marks of lists, signs between them. */
const squeezed = (text) => text.replace(/[\s•◦▪:;]+/g, "");

/** Goes to a sheet as its link does. */
async function sheetOf(page, id) {
  if (!(await page.evaluate(() => history.state?.path.startsWith("/print")))) await go(page, "/print");
  if ((await page.evaluate(() => history.state.path)) !== "/print") await go(page, "/print");
  await go(page, `/print/${id}`);
  await page.until(() => document.querySelector("[data-code]:empty") === null);
}

/**
 * What stands in the rows, boxes and lists of the sheet: none of them may be cut. A row of the weeks has
 * letters drawn between its names, so there it is each name.
 */
const pieces = (page) => page.evaluate(() =>
  [...document.querySelectorAll(".sheet table:not(.cover-grid) tbody tr, .cover-grid th[scope=row], .cover-grid .who-of:not(:has(.unseen)), .sheet-list > li, .sheet-call, .sheet-caution, .card-out, .sheet-code, .sheet:not(.card) > .sheet-head")]
    .map((e) => [e.className || e.tagName, e.innerText]).filter(([, text]) => text.trim() !== ""));


for (const language of ["en-US", "es-US"]) {
  test(`chromium: the sheets on paper, ${language}`, () =>
    withPage("chromium", { ...phone, width: 900, height: 1000, language }, async (page) => {
      await open(page, `${site}#demo`);
      for (const [id, [least, most]] of Object.entries(sheets)) {
        await sheetOf(page, id);
        const hint = Number(/\d+/.exec(await said(page, ".top > p:last-child"))?.[0] ?? 1);
        const parts = await pieces(page);
        for (const [format, [width, height]] of Object.entries(papers)) {
          const what = `${id}, ${format}, ${language}`;
          const file = join(folder, `${language}-${id}-${format}.pdf`);
          await page.pdf(file, format);
          const is = about(file);
          assert.ok(Math.abs(is.width - width) < 1 && Math.abs(is.height - height) < 1, `${what}: ${is.width} by ${is.height}`);
          assert.ok(is.pages >= least && is.pages <= most, `${what}: ${is.pages} pages`);
          assert.ok(Math.abs(is.pages - hint) <= 1 + is.pages / 8, `${what}: ${is.pages} pages, the screen says about ${hint}`);
          const words = wordsOf(file);
          insideTheMargins(words, is, what);
          const drawn = drawnOn(file).map(squeezed);
          for (const [kind, text] of parts) assert.ok(drawn.some((p) => p.includes(squeezed(text))), `${what}: cut, or not there: ${kind} ${text}`);
          for (let n = 1; n <= is.pages; n++) {
            assert.ok(textOf(file, n).replaceAll(" ", "").includes(`${n}/${is.pages}`), `${what}: page ${n} has no number`);
            // A page with two lines on it wastes paper.
            assert.ok(words.filter((w) => w.page === n).length > 25, `${what}: page ${n} has next to nothing on it`);
          }
          for (const { filled, dark, coloured } of inkOf(file, file.slice(0, -4))) {
            assert.deepEqual([filled, coloured], [0, 0], `${what}: filled squares, coloured dots`);
            assert.ok(dark < 0.3, `${what}: ${Math.round(dark * 100)} % of a page is dark`);
          }
        }
      }
    }));
}

/** Nothing is printed outside the margins but the number of the page. */
function insideTheMargins(words, is, what) {
  for (const w of words) {
    const foot = w.top > is.height - margin - 6;
    assert.ok(foot ? /^(\d+|\/)$/.test(w.text) : w.left >= margin && w.right <= is.width - margin && w.top >= margin - 4, `${what}: ${JSON.stringify(w)}`);
  }
}

/** Which of two words stands higher; 0 on one line, where larger letters begin higher up. */
const line = (a, b) => (Math.abs(a.bottom - b.bottom) < 5 ? 0 : a.bottom - b.bottom);

/** What stands in the second column of a helper's sheet, from page to page. */
function timesOn(file) {
  const words = wordsOf(file);
  const head = words.find((w) => w.text === "Time");
  const from = head.left - 1;
  const to = words.find((w) => w.text === "What" && w.page === head.page && Math.abs(w.bottom - head.bottom) < 3).left - 1;
  const foot = words.find((w, i) => w.text === "The" && words[i + 1]?.text.startsWith("hospital"));
  return squeezed(words
    .filter((w) => w.left >= from && w.left < to && w.text !== "Time" && (w.page < foot.page || w.page === foot.page && w.top < foot.top - 3))
    .filter((w) => w.top > words.find((h) => h.text === "Time" && h.page === w.page)?.top)
    .sort((a, b) => a.page - b.page || line(a, b) || a.left - b.left).map((w) => w.text).join(""));
}

test("chromium: on paper are all signs, all times to leave, and a code that a camera reads", () =>
  withPage("chromium", { ...phone, width: 900, height: 1000 }, async (page) => {
    await open(page, `${site}#demo`);
    const link = await page.evaluate(() => location.href);
    const signs = await page.evaluate(() => [...document.querySelectorAll("#signs li")].map((e) => e.textContent.trim()));
    assert.ok(signs.length >= 14, `${signs.length} signs`);
    for (const id of Object.keys(sheets)) {
      await sheetOf(page, id);
      const file = join(folder, `${id}.pdf`);
      await page.pdf(file, "Letter");
      const text = squeezed(textOf(file));
      const some = id.startsWith("card") || id === "guide" ? signs : signs.filter((s) => !s.startsWith('"') && !s.startsWith("On 911"));
      for (const sign of some) assert.ok(text.includes(squeezed(sign)), `${id}: ${sign}`);
      assert.ok(text.includes("555-0142"), id);
      // What is on the screen around the sheet is not on paper.
      for (const word of ["Another sheet", "Back to the plan", "About"]) assert.ok(!textOf(file).includes(word), `${id}: ${word}`);
      if (!id.startsWith("helper")) continue;
      const times = await page.evaluate(() => [...document.querySelectorAll(".sheet-rows tbody tr")].map((r) => r.children[1].innerText));
      assert.ok(times.length >= 4, `${times.length} rows`);
      assert.equal(timesOn(file), squeezed(times.join("")), `${id}: the times to leave`);
      assert.deepEqual(readCodes(pictureOf(file, 1, join(folder, `${id}-1`))), [link], `${id}: the code on the first page`);
    }
  }));

test("chromium: printing the plan's page leaves out what can only be tapped", () =>
  withPage("chromium", { ...phone, width: 900, height: 1000 }, async (page) => {
    await open(page, `${site}#demo`);
    const file = join(folder, "plan.pdf");
    await page.pdf(file, "A4");
    const text = textOf(file);
    for (const word of ["Drive to the hospital", "Call 911 now", "Feed the cat"]) assert.ok(text.includes(word), word);
    for (const word of ["12-hour", "Send the link"]) assert.ok(!text.includes(word), word);
  }));

for (const engine of engines) {
  test(`${engine}: a sheet is chosen, shown, and printed by its button alone`, () =>
    withPage(engine, phone, async (page) => {
      await open(page, `${site}#demo`);
      await go(page, "/print");
      if (engine === "chromium") await looksRight(page);
      await page.evaluate(() => { window.prints = 0; window.print = () => { window.prints++; }; });
      for (const id of [...Object.keys(sheets), "helpers"]) {
        await go(page, `/print/${id}`);
        await page.click("#print");
        await page.until(() => window.prints === 1);
        await page.evaluate(() => { window.prints = 0; });
        assert.equal(await page.evaluate(() => history.state.path), `/print/${id}`, "printing leads nowhere");
        if (engine === "chromium") await looksRight(page);
        await go(page, "/print");
      }
      await go(page, "/print/fridge");
      await page.fill("#field-from", "2026-12-10");
      await page.click(".paper-from button");
      await page.until(() => document.querySelector(".sheet-days time")?.getAttribute("datetime") === "2026-12-10");
      await at(page, "/print/fridge");
    }));
}
