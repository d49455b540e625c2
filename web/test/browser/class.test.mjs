// The class, in real browsers: a sample's days are stepped through by button and by key. And what
// comes back from it: a helper holds up what was clear, and the desk's page reads it. The build
// serves a fresh bundle and names it in NEWEL_SITE.

import assert from "node:assert/strict";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { setTimeout as pause } from "node:timers/promises";
import { engines, withPage } from "../engines.mjs";
import { at, go, open, phone, saidApart as said } from "../family.mjs";
import { looksRight } from "../looks.mjs";
import { readCodes } from "../zbar.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const room = { ...phone, width: 1280, height: 800 };

const day = (page) => said(page, "#class-day");

/** Waits until another day than this one is shown. */
const until = (page, wanted) => page.until((text) => document.querySelector("#class-day")?.textContent === text, wanted);

for (const engine of engines)
  test(`${engine}: the class steps through a sample's days`, () =>
    withPage(engine, room, async (page) => {
      await open(page, `${site}#desk`);
      await page.evaluate(() => document.querySelector('[data-path^="/desk/class"]').click());
      await page.until(() => document.querySelector("#class-day") !== null);
      const stored = await page.evaluate(() => Object.keys(localStorage).length);
      const first = await day(page);
      assert.match(first, /days before surgery$/);
      await page.press("ArrowRight");
      await page.until((text) => document.querySelector("#class-day").textContent !== text, first);
      const second = await day(page);
      await page.press("ArrowLeft");
      await until(page, first);
      await page.click(".step-after");
      await until(page, second);
      assert.equal(await page.evaluate(() => document.activeElement?.id), "class-day", "it is read from its head");
      // To the day of surgery, and to the end: the last day has no next one.
      for (let left = 40; left > 0 && (await page.evaluate(() => document.querySelector(".step-after") !== null)); left--) {
        const before = await day(page);
        await page.press("ArrowRight");
        await page.until((text) => document.querySelector("#class-day").textContent !== text, before);
      }
      assert.match(await day(page), /days after surgery$/);
      await page.press("ArrowRight");
      assert.match(await day(page), /days after surgery$/);
      await page.back();
      await page.until(() => document.querySelector(".step-after") !== null);
      await page.click(".class-rail .surgery a");
      await until(page, "The day of surgery");
      assert.match(await said(page, ".class-day .rail"), /6:00 AM/);
      // A key with another one held is the browser's.
      await page.evaluate(() => document.body.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", altKey: true, bubbles: true })));
      assert.equal(await day(page), "The day of surgery");
      assert.equal(await page.evaluate(() => Object.keys(localStorage).length), stored, "nothing is stored");
      if (engine === "chromium") await looksRight(page);
    }));

/** Reads the code on the screen. As a camera does, it looks until there is one. */
async function held(page, file) {
  await page.evaluate(() => document.querySelector("#said-code [data-code]").scrollIntoView({ block: "center" }));
  for (let look = 0; ; look++) {
    await page.screenshot(file, false);
    const codes = readCodes(file);
    if (codes.length > 0 || look === 20) return codes;
    await pause(100);
  }
}

for (const engine of engines)
  test(`${engine}: what was said back is held up, and the desk reads it`, () =>
    withPage(engine, phone, async (page) => {
      await page.goto(`${site}#demo`);
      await page.until(() => document.querySelector("#family") !== null);
      await go(page, "/say-back");
      for (let n = 0; n < 6; n++) {
        await page.evaluate((last) => {
          const form = [...document.querySelectorAll(".ask-back:not(.clear, .again) form")][0];
          form.requestSubmit(form.querySelector(`[value="${last ? "again" : "clear"}"]`));
        }, n === 5);
        await page.until((many) => document.querySelectorAll(".ask-back.clear, .ask-back.again").length === many, n + 1);
      }
      await page.click("#said-code summary");
      await page.until(() => document.querySelector("#said-code svg") !== null);
      const folder = await mkdtemp(join(tmpdir(), "newel-said-"));
      try {
        const [text] = await held(page, join(folder, "code.png"));
        assert.match(text, /#said\.[a-zA-Z]{6}$/);
        const fragment = text.slice(text.indexOf("#"));
        if (engine === "chromium") await looksRight(page);
        await open(page, `${site}${fragment}`);
        assert.match(await said(page, "main"), /^5 of 6 answers are clear\. Explain again when to call 911/);
        await page.evaluate(() => document.querySelector(".told-again a").click());
        await at(page, "/guide/signs");
        await page.back();
        await at(page, "/");
        if (engine === "chromium") await looksRight(page);
      } finally {
        await rm(folder, { recursive: true });
      }
    }));
