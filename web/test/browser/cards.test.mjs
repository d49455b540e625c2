// The cards that the desk prints: made to PDF by Chromium on both sizes of paper, and looked at with
// other programs (poppler, zbar). In all engines: from a table to the cards, by keyboard, and the
// button that prints.

import assert from "node:assert/strict";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { at, dayFromNow, go, open, phone, said } from "../family.mjs";
import { looksRight } from "../looks.mjs";
import { about, drawnOn, inkOf, pictureOf, textOf, wordsOf } from "../pdf.mjs";
import { readCodes } from "../zbar.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const folder = mkdtempSync(join(tmpdir(), "newel-cards-"));
after(() => rmSync(folder, { recursive: true }));

const room = { ...phone, width: 1280, height: 800 };

/** ISO 216 and ANSI/ASME Y14.1, in points; and the margins, 12 mm, less the rounding of a font's edges. */
const papers = { Letter: [612, 792], A4: [595.3, 841.9] };
const margin = (12 / 25.4) * 72 - 1.5;

/** Without spaces and without what only the style puts there. */
const squeezed = (text) => text.replace(/[\s•◦▪:;_]+/g, "");

/** Rows that differ in all that makes a card long or short: what is known, the stay, the language. */
async function table(page, rows) {
  const kinds = ["5:30 AM\tknee\tfirst\tone night\tno\tEnglish", "\thip\trevision\tnot decided\tno\tEnglish", "11:00\tknee\tboth\tsame day\tno\tSpanish",
    "\thip\tboth\tnot decided\tno\tSpanish", "\thip\tfirst\tsame day\tyes\tEnglish"];
  const lines = ["Label\tDate\tArrival\tJoint\tOperation\tStay\tOwn times\tLanguage"];
  for (let i = 0; i < rows; i++) lines.push(`Bed ${i}\t${await dayFromNow(page, 9 + (i % 28))}\t${kinds[i % kinds.length]}`);
  return lines.join("\n");
}

/** The desk of a hospital that puts all of its settings into its links: two numbers with hours, three signs of its own, who reviewed it. */
const talkative =
  "desk.DAAAAAAAA_-AEtrv-5P65CbXGBfL6aE-n4xw2AEfBSEoHqgAAAABDaR-Pce1u55aoAAAAARY4-a-AsIAAAAABWk_O3YPKggpbTUGUMoj9x1fC4rGlXyNQkMnkOzgys4GzawcRNAAAAAAtKn4f96iMm6RIT37e-Dmg-HZn9YNtYs2B2NVlGcAAAAAALRNMbkI-1XdFzxE7PlHWATU6XHI0RlhJd3SWkHkDkM288ayrNiS3vXSigAAAKzHgr7XxCXQ2XPOLTC1MxsDjkL7FKbRsLrfWhSCLVuBJdypNUG3At84SBa-yCwYWAAAAM6HrK9hsMzzFbjzUI7VgEAAAAADCR88aK99T6bSF7-h4VwHJEf9BkwRP3xgT4WAD8NVO7xy4hiETQAABS4gKddLbnjimDrpMX1uAAAAE046ejxTLK-71csdoep_1ZVTw1YVF5eyBKL3-COvfKY";

/** From the desk to the cards of so many rows, with the example hospital or another one; gives the links. */
async function toCards(page, rows, desk) {
  await open(page, `${site}#${desk ?? "desk"}`);
  if (!desk) await page.click("#notice-common .second");
  await page.until(() => location.hash.startsWith("#desk.") && document.querySelector("#notice-common") === null);
  await go(page, "/desk/rows");
  const text = await table(page, rows);
  await page.evaluate((t) => { document.querySelector("#field-text").value = t; document.querySelector("#table-check").focus(); }, text);
  await page.press("Enter");
  await page.until(() => document.querySelector("#rows-cards") !== null);
  const links = await page.evaluate(() => [...document.querySelectorAll(".made-rows [data-qr]")].map((e) => `${location.href.split("#")[0]}#${e.dataset.qr}`));
  await page.evaluate(() => document.querySelector("#rows-cards").focus());
  await page.press("Enter");
  await at(page, "/desk/cards");
  await drawn(page);
  return links;
}

const drawn = (page) => page.until(() => document.querySelector("#cards-form") !== null && document.querySelector("[data-code]:empty") === null);

test("chromium: forty cards on paper, two to a page, none cut, and a camera reads each code", () =>
  withPage("chromium", room, async (page) => {
    const links = await toCards(page, 40);
    assert.equal(links.length, 40);
    const pieces = await page.evaluate(() => [...document.querySelectorAll(".card-who, .card-times > div, .card-signs > div, .card-caution")].map((e) => e.innerText));
    assert.equal(pieces.length, 40 * (1 + 6 + 2 + 1));
    assert.match(await said(page, "#outcome-title"), /^40 cards\. About 20 pages\./);
    for (const [format, [width, height]] of Object.entries(papers)) {
      const file = join(folder, `${format}.pdf`);
      await page.pdf(file, format);
      const is = about(file);
      assert.ok(Math.abs(is.width - width) < 1 && Math.abs(is.height - height) < 1, `${format}: ${is.width} by ${is.height}`);
      assert.equal(is.pages, 20, format);
      const pages = drawnOn(file).map(squeezed);
      pieces.forEach((text, i) => assert.ok(pages[Math.floor(i / 20)].includes(squeezed(text)), `${format}: cut, or not there: ${text}`));
      for (const w of wordsOf(file)) {
        const foot = w.top > is.height - margin - 6;
        assert.ok(foot ? /^(\d+|\/)$/.test(w.text) : w.left >= margin && w.right <= is.width - margin && w.top >= margin - 4, `${format}: ${JSON.stringify(w)}`);
      }
      for (const { filled, dark, coloured } of inkOf(file, file.slice(0, -4))) {
        assert.deepEqual([filled, coloured], [0, 0], `${format}: filled squares, coloured dots`);
        assert.ok(dark < 0.3, `${format}: ${Math.round(dark * 100)} % of a page is dark`);
      }
      for (const n of format === "Letter" ? [1, 2, 3, 20] : [2])
        assert.deepEqual(readCodes(pictureOf(file, n, join(folder, `${format}-${n}`))).sort(), links.slice(2 * n - 2, 2 * n).sort(), `${format}, page ${n}`);
      for (const word of ["Bed", "Choose patients", "Back to the start", "Newel"]) assert.ok(!textOf(file).includes(word), `${format}: ${word}`);
    }
  }));

test("chromium: a hospital that says much, with a long link, has two cards to a page too", () =>
  withPage("chromium", room, async (page) => {
    const links = await toCards(page, 5, talkative);
    assert.ok(links.every((link) => link.length > 450), links[0]);
    for (const format of Object.keys(papers)) {
      const file = join(folder, `much-${format}.pdf`);
      await page.pdf(file, format);
      assert.equal(about(file).pages, 3, format);
      for (const n of [1, 2]) {
        assert.deepEqual(readCodes(pictureOf(file, n, join(folder, `much-${format}-${n}`))).sort(), links.slice(2 * n - 2, 2 * n).sort(), `${format}, page ${n}`);
        for (const words of ["555-0142", "555-0143", "the leg looks shorter or turned"]) assert.equal(textOf(file, n).split(words).length - 1, 2, words);
      }
    }
  }));

for (const engine of engines) {
  test(`${engine}: cards are chosen, shown, and printed by the button alone`, () =>
    withPage(engine, room, async (page) => {
      const stored = await page.evaluate(() => localStorage.length).catch(() => 0);
      const links = await toCards(page, 5);
      if (engine === "chromium") await looksRight(page);
      await page.setSize(1280, 800);
      await page.evaluate(() => { window.prints = 0; window.print = () => { window.prints++; }; });
      await page.click("#print");
      await page.until(() => window.prints === 1);
      await page.evaluate(() => {
        document.querySelector("#choices").open = true;
        for (const box of document.querySelectorAll('[name="only"]')) box.checked = box.value === "1" || box.value === "3";
        document.querySelector("#field-mark").checked = true;
        document.querySelector("#cards-show").focus();
      });
      await page.press("Enter");
      await page.until(() => document.querySelectorAll(".desk-card").length === 2);
      await drawn(page);
      assert.deepEqual(await page.evaluate(() => [...document.querySelectorAll(".card-code")].map((e) => e.dataset.qr)), [links[1], links[3]].map((l) => l.split("#")[1]));
      assert.deepEqual(await page.evaluate(() => [...document.querySelectorAll(".card-mark")].map((e) => e.textContent)), ["Bed 1", "Bed 3"]);
      assert.equal(await page.evaluate(() => document.activeElement?.id), "outcome");
      await page.click("#cards-rows");
      await at(page, "/desk/rows");
      await page.until(() => document.querySelector("#rows-cards") !== null);
      const again = await page.evaluate(() => [...document.querySelectorAll(".made-rows [data-qr]")].map((e) => `${location.href.split("#")[0]}#${e.dataset.qr}`));
      assert.deepEqual(again, links, "the same links");
      assert.equal(await page.evaluate(() => localStorage.length), stored, "nothing is stored");
    }));
}
