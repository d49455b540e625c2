// The hospital's settings as a new navigator puts them in, with the keyboard alone: from an empty
// form to a saved file, opened again with a mistake in it, mended, and used. The build serves a
// fresh bundle and names it in NEWEL_SITE.

import assert from "node:assert/strict";
import { test } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { at, phone, said } from "../family.mjs";
import { looksRight } from "../looks.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const desktop = { ...phone, width: 1280, height: 800 };

/** Goes with Tab until what has the focus fits, as somebody without a mouse does. */
async function tabTo(page, fits, arg) {
  for (let n = 0; n < 250; n++) {
    if (await page.evaluate(fits, arg)) return;
    await page.press("Tab");
  }
  assert.fail(`nothing that fits is reached with Tab: ${fits} ${arg}`);
}

const field = (page, name) => tabTo(page, (n) => document.activeElement?.name === n, name);
const button = (page, words) => tabTo(page, (w) => ["BUTTON", "A"].includes(document.activeElement?.tagName) && document.activeElement.textContent.trim() === w, words);

async function typeInto(page, name, text) {
  await field(page, name);
  await page.press("Control+a");
  await page.type(text);
}

async function press(page, words) {
  await button(page, words);
  await page.press("Enter");
}

const focus = (page, id) => page.until((i) => document.activeElement?.id === i, id);

for (const engine of engines) {
  test(`${engine}: from an empty form to a file, with the keyboard alone`, () =>
    withPage(engine, desktop, async (page) => {
      await page.goto(`${site}#desk`);
      await at(page, "/desk");
      await press(page, "Settings");
      await at(page, "/desk/settings");
      if (engine === "chromium") await looksRight(page);

      await typeInto(page, "hospital", "Alder Ferry Hospital");
      await page.press("Enter");
      await focus(page, "problems");
      assert.match(await said(page, "#problems"), /Phone number for questions: please fill it in/);
      assert.equal(await page.evaluate(() => document.querySelector("#field-hospital").value), "Alder Ferry Hospital");

      await typeInto(page, "phone", "555-0142");
      await typeInto(page, "rule.liquids-before", "30");
      await typeInto(page, "line.0.en", "Bring the blue folder");
      await typeInto(page, "line.0.es", "Traiga la carpeta azul");
      await press(page, "Add another line");
      await focus(page, "field-line.1.list");
      assert.equal(await page.evaluate(() => document.querySelector('[name="line.0.es"]').value), "Traiga la carpeta azul");
      await press(page, "Save the settings");
      await focus(page, "notice-saved");
      assert.match(await said(page, "#notice-saved"), /1 rule is laxer than published guidance/);
      assert.match(await said(page, "#group-before"), /Clear liquids stop 30 minutes before arrival.*Anesthesiology/);
      assert.match(await page.evaluate(() => location.hash), /^#desk\..{20,}/);
      if (engine === "chromium") await looksRight(page);

      await press(page, "Save or open as a file");
      await at(page, "/desk/settings/file");
      const text = await page.evaluate(() => document.querySelector("#own-file").value);
      assert.match(text, /\nliquids-before = 30\n/);
      await press(page, "Save the file");
      await focus(page, "notice-file");
    }));

  test(`${engine}: a file with a mistake in it is mended and used`, () =>
    withPage(engine, phone, async (page) => {
      await page.goto(`${site}#desk`);
      await at(page, "/desk");
      await press(page, "Settings");
      await at(page, "/desk/settings");
      await press(page, "Save or open as a file");
      await at(page, "/desk/settings/file");
      await press(page, "Check it");
      await focus(page, "problem-file");

      await field(page, "text"); // pasted, since typing is line by line in each engine's own way
      await page.evaluate(() => { document.activeElement.value = 'hospital = "Alder Ferry Hospital"\nphone = "555-0142"\nwash-days = 55'; });
      await press(page, "Check it");
      await focus(page, "found");
      assert.match(await said(page, "#found"), /Line 3: wash-days: it has to be between 1 day and 14 days/);
      assert.equal(await page.evaluate(() => location.hash), "#desk", "nothing is taken over yet");
      if (engine === "chromium") await looksRight(page);

      await tabTo(page, () => document.activeElement?.id === "field-text");
      await page.press("Control+End");
      await page.press("Backspace");
      await press(page, "Check it");
      await page.until(() => document.querySelector("#found")?.textContent.includes("Nothing is wrong"));
      await press(page, "Use these settings");
      await focus(page, "notice-saved");
      assert.equal(await page.evaluate(() => document.querySelector('[name="rule.wash-days"]').value), "5");

      await press(page, "Keep on this device");
      await at(page, "/desk/settings/keep");
      await press(page, "Keep these settings here");
      await focus(page, "notice-keep");
      if (engine === "chromium") await looksRight(page);
      await page.goto("about:blank");
      await page.goto(`${site}#desk`);
      await page.until(() => document.querySelector("#app").textContent.includes("Settings of Alder Ferry Hospital"));
    }));
}
