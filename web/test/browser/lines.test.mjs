// Lines of one's own in the lists, and the hospital's settings, as people put them in on a
// phone. The build serves a fresh bundle and names it in NEWEL_SITE.

import assert from "node:assert/strict";
import { test } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { at, dayFromNow, go, phone, said, send, unfold } from "../family.mjs";
import { looksRight } from "../looks.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

async function demo(page) {
  await page.goto(`${site}#demo`);
  await page.until(() => document.querySelector("#family") !== null);
}

/** The id of the own line with that text. */
const lineOf = (page, text) =>
  page.evaluate((t) => [...document.querySelectorAll('.lists [id^="item-own-"]')].find((e) => e.textContent.includes(t))?.id, text);

for (const engine of engines) {
  test(`${engine}: a line is added, ticked, changed and taken out`, () =>
    withPage(engine, phone, async (page) => {
      await demo(page);
      await unfold(page, "list-pack", "add-pack");
      await page.fill("#add-pack-text", "Bring the blue pillow");
      if (engine === "chromium") await looksRight(page);
      await page.evaluate((day) => (document.querySelector("#add-pack-day").value = day), await dayFromNow(page, 8));
      await page.click("#add-pack form button");
      await page.until(() => document.activeElement?.id.startsWith("item-own-"));
      const id = await lineOf(page, "Bring the blue pillow");
      assert.equal(await page.evaluate(() => document.activeElement.id), id, "the focus is on the new line");
      assert.match(await said(page, `#${id}`), /Added by the family/);
      assert.equal(await page.evaluate(() => document.querySelector("#add-pack-text").value), "", "the fold is ready for the next");

      await page.click(`#${id} .tick .title`);
      await page.until((i) => document.querySelector(`#${i}.past`) !== null, id);
      await go(page, `/line/${id.slice("item-own-".length)}`);
      await send(page, `/line/${id.slice("item-own-".length)}`, { text: "" }, `/line/${id.slice("item-own-".length)}`);
      assert.match(await said(page, "#problem-text"), /please write a few words/);
      if (engine === "chromium") await looksRight(page);
      await send(page, `/line/${id.slice("item-own-".length)}`, { text: "Bring two pillows" });
      assert.match(await said(page, `#${id}`), /Bring two pillows/);
      await go(page, `/line/${id.slice("item-own-".length)}`);
      await page.evaluate(() => document.querySelector('form[action$="/out"] button').click());
      await at(page, "/");
      assert.equal(await lineOf(page, "pillow"), undefined);
    }));

  test(`${engine}: the hospital's movement limits are kept line by line`, () =>
    withPage(engine, phone, async (page) => {
      await demo(page);
      await go(page, "/facts");
      await unfold(page, "group-calls");
      const limits = () => page.evaluate(() => document.querySelector("#field-limits").value);
      assert.equal(await limits(), "Do not kneel on the new knee until the surgeon says so.");
      if (engine === "chromium") await looksRight(page);
      await send(page, "/facts", { limits: "Do not kneel.\nDo not twist.", "rule.fever": "38,5" });
      await go(page, "/facts");
      assert.equal(await limits(), "Do not kneel.\nDo not twist.");
      assert.equal(await page.evaluate(() => document.querySelector('[name="rule.fever"]').value), "38.5 °C");
    }));
}
