// Folds whose inside the core leaves out until they are opened (core/page/folds.go, web/folds.ts), in real
// browsers: what a tap, a jump and paper find in them.

import assert from "node:assert/strict";
import { test } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { go, phone } from "../family.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

async function family(page) {
  await page.goto(`${site}#demo`);
  await page.until(() => document.querySelector("#list-home") !== null && globalThis.newelHandle !== undefined);
}

const left = (page) => page.evaluate(() => [...document.querySelectorAll('details[data-fold="left"]')].map(({ id }) => id));
const boxes = (page, id) => page.evaluate((i) => document.querySelectorAll(`#${i} input[type="checkbox"]`).length, id);

for (const engine of engines) {
  test(`${engine}: a fold is filled within the tap that opens it, and stays so`, () =>
    withPage(engine, phone, async (page) => {
      await family(page);
      const before = await left(page);
      for (const id of ["list-home", "list-pack", "daily"]) assert.ok(before.includes(id), `${id} is left out at first`);
      assert.equal(await boxes(page, "list-home"), 0);
      const { top, filled } = await page.evaluate(() => {
        const summary = document.querySelector("#list-home > summary");
        summary.click();
        return { top: summary.getBoundingClientRect().top, filled: document.querySelectorAll("#list-home input").length };
      });
      assert.ok(filled > 5, `${filled} fields within the tap`);
      await page.until(() => document.querySelector("#list-home").open);
      assert.equal(await page.evaluate(() => document.querySelector("#list-home > summary").getBoundingClientRect().top), top, "the title moves nowhere");
      assert.deepEqual(await left(page), before.filter((id) => id !== "list-home"), "no other one is filled");

      // A tick in it: the box shows it before the core has answered, and the fold stays open.
      const ticked = await page.evaluate(() => {
        const box = document.querySelector('#list-home input[type="checkbox"]:not(:checked)');
        const { hash } = location;
        box.click();
        return { id: box.id, at: box.checked, asked: location.hash !== hash, hash };
      });
      assert.deepEqual([ticked.at, ticked.asked], [true, false], "the box first, the core after the frame");
      await page.until((hash) => location.hash !== hash, ticked.hash);
      assert.ok(await page.evaluate((id) => document.getElementById(id).checked && document.querySelector("#list-home").open, ticked.id));

      // Closed and opened again it needs no filling; a screen later it is left out again.
      await page.evaluate(() => { document.querySelector("#list-home").open = false; });
      await page.evaluate(() => document.querySelector('#list-pack > summary').click());
      assert.ok(await boxes(page, "list-home") > 5);
      await go(page, "/facts");
      await page.back();
      await page.until(() => document.querySelector("#list-home") !== null);
      assert.ok((await left(page)).includes("list-home"));
    }));

  test(`${engine}: a tap on a list in what is next opens that list with its lines`, () =>
    withPage(engine, phone, async (page) => {
      await family(page);
      const id = await page.evaluate(() => {
        const link = document.querySelector('#next a[href^="#list-"], #days a[href^="#list-"]');
        link.click();
        return link.getAttribute("href").slice(1);
      });
      await page.until((i) => document.getElementById(i).open && document.querySelectorAll(`#${i} li`).length > 1, id);
    }));

  test(`${engine}: a jump to what is in a fold that was left out finds it`, () =>
    withPage(engine, phone, async (page) => {
      await family(page);
      // Such a line is not on the page; its id is learned from the whole one.
      const id = await page.evaluate(() => {
        document.querySelector("#daily > summary").click();
        return document.querySelector("#daily li[id]").id;
      });
      await page.goto("about:blank");
      await family(page);
      assert.equal(await page.evaluate((i) => document.getElementById(i) === null, id), true);
      await page.evaluate((i) => {
        const link = document.createElement("a");
        link.href = `#${i}`;
        document.querySelector("#app").append(link);
        link.click();
      }, id);
      await page.until((i) => document.getElementById(i)?.getClientRects().length > 0, id);
    }));

  test(`${engine}: paper has all of them`, () =>
    withPage(engine, phone, async (page) => {
      await family(page);
      assert.ok((await left(page)).length > 3);
      await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
      assert.deepEqual(await left(page), []);
      assert.ok(await page.evaluate(() => [...document.querySelectorAll("details.list")].every((list) => list.open && list.querySelector("li"))));
      await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
      assert.equal(await page.evaluate(() => document.querySelectorAll("details.list[open]").length), 0);
    }));

  test(`${engine}: a fold that is opened before the page has its own core is filled once that is there`, () =>
    withPage(engine, phone, async (page) => {
      await family(page);
      await page.goto("about:blank");
      await page.goto(`${site}#demo`);
      // What it says is looked at in the page itself: the core comes when it likes.
      const says = await page.evaluate(async () => {
        const list = () => document.querySelector("#list-home");
        if (!list()) await new Promise((found) => new MutationObserver(() => { if (list()) found(); }).observe(document, { childList: true, subtree: true }));
        list().querySelector("summary").click();
        return globalThis.newelHandle === undefined ? list().textContent : null;
      });
      if (says !== null) assert.match(says, /One moment/);
      await page.until(() => document.querySelectorAll("#list-home input").length > 5 && document.querySelector("#list-home").open);
    }));

  test(`${engine}: two ticks in one moment are both in the link`, () =>
    withPage(engine, phone, async (page) => {
      await family(page);
      const ids = await page.evaluate(() => {
        const all = [...document.querySelectorAll('#days input[type="checkbox"]:not(:checked)')].slice(0, 2);
        for (const box of all) box.click();
        return all.map(({ id }) => id);
      });
      const ticked = () => page.evaluate((list) => list.map((id) => document.getElementById(id).checked), ids);
      await page.until((list) => list.every((id) => document.getElementById(id).closest(".past")), ids);
      assert.deepEqual(await ticked(), [true, true]);
      const { hash } = await page.evaluate(() => { localStorage.clear(); return { hash: location.hash }; });
      await page.goto("about:blank");
      await page.goto(site + hash);
      await page.until((id) => document.getElementById(id) !== null, ids[0]);
      assert.deepEqual(await ticked(), [true, true]);
    }));

  test(`${engine}: a tick is kept though the page is left in the same moment`, () =>
    withPage(engine, phone, async (page) => {
      await family(page);
      const { id, hash } = await page.evaluate(() => {
        const box = document.querySelector('#days input[type="checkbox"]:not(:checked)');
        const was = location.hash;
        box.click();
        window.dispatchEvent(new Event("pagehide"));
        return { id: box.id, hash: was };
      });
      assert.notEqual(await page.evaluate(() => location.hash), hash, "at once, not after a frame that does not come");
      assert.ok(await page.evaluate((i) => document.getElementById(i).checked, id));

      // Back, or another address, in the moment after a tick: the other page stands there, and the tick is not lost.
      const now = await page.evaluate(() => {
        const box = document.querySelector('#days input[type="checkbox"]:not(:checked)');
        box.click();
        const was = location.hash;
        location.hash = "start";
        return { id: box.id, was };
      });
      await page.until(() => document.querySelector("#list-home") === null && document.querySelector("form") !== null);
      assert.equal(await page.evaluate(() => location.hash), "#start");
      await page.evaluate((was) => { location.hash = was; }, now.was);
      await page.until((i) => document.getElementById(i)?.checked === true, now.id);
    }));
}
