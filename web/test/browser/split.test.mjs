// Who does what, in real browsers, as a family settles it on a phone: a helper is put in, a
// split is suggested and accepted, somebody drops out, and one tap mends it. The build serves
// a fresh bundle and names it in NEWEL_SITE.

import assert from "node:assert/strict";
import { test } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { at, go, phone, said } from "../family.mjs";
import { looksRight } from "../looks.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

async function demo(page) {
  await page.goto(`${site}#demo`);
  await page.until(() => document.querySelector("#family") !== null);
}

/**
 * Notes in globalThis.watched whether the page says that it works, and how often it gets to do something else
 * then: a page that works by itself does not. Frames would tell the same, but a busy machine draws few.
 */
const watchTurns = (page) => page.evaluate(() => {
  const line = document.getElementById("working");
  const watched = { shown: false, turns: 0, warned: [] };
  globalThis.watched = watched;
  const warn = console.warn;
  console.warn = (...what) => { watched.warned.push(String(what[0])); warn(...what); };
  setInterval(() => { if (!line.hidden) watched.turns++; }, 5);
  new MutationObserver(() => { watched.shown ||= !line.hidden; }).observe(line, { attributes: true });
});

/** Presses the button of a form with that action; with a value, the one that sends it. */
const press = (page, action, value) =>
  page.evaluate((a, v) => document.querySelector(`form[action="${a}"] button${v ? `[value="${v}"]` : ""}`).click(), action, value);

/** A tap on the box or the answer with that name and value. */
const tap = (page, name, value = "1") =>
  page.evaluate((n, v) => document.querySelector(`[name="${n}"][value="${v}"]`).closest("label").click(), name, value);

/** What a picker does to a field. */
const put = (page, name, value) =>
  page.evaluate((n, v) => {
    const field = document.querySelector(`[name="${n}"]`);
    field.value = v;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }, name, value);

const shown = (page, selector) => page.evaluate((s) => document.querySelector(s).getClientRects().length > 0, selector);

/** Puts Ruth in: she drives, and is at work until half past one. */
async function addRuth(page) {
  await go(page, "/helper/new");
  assert.equal(await shown(page, "#field-a-from"), false, "who can help at any time is asked for no times");
  await put(page, "name", "Ruth");
  for (const can of ["drive", "steady", "pets"]) await tap(page, `can-${can}`);
  await tap(page, "when", "work");
  assert.equal(await shown(page, "#field-a-from"), true);
  for (const day of [1, 2, 3, 4, 5]) await tap(page, `a-day-${day}`);
  await put(page, "a-from", "08:00");
  await put(page, "a-to", "13:30");
  await page.evaluate(() => document.querySelector(".helper-form .submit button").click());
  await at(page, "/split");
  assert.match(await said(page, "#loads"), /Ruth/);
}

for (const engine of engines)
  test(`${engine}: a split is suggested and accepted, and a drop-out is mended by one tap`, () =>
    withPage(engine, phone, async (page) => {
      await demo(page);
      await addRuth(page);
      const before = await said(page, "header");
      await watchTurns(page);
      await go(page, "/split/suggest");
      const dates = await page.evaluate(() => document.querySelectorAll(".suggest .dates-of input").length);
      assert.ok(dates > 20, `${dates} dates have a box`);
      assert.match(await said(page, "#proof"), /proven/);

      // A worker has worked it out: the page said so, and stayed alive.
      const { shown, warned, turns } = await page.evaluate(() => globalThis.watched);
      assert.deepEqual([shown, warned], [true, []]);
      assert.ok(turns > 2, `${turns} turns while it was worked out`);

      // A whole group is left out by its box, the others are taken.
      const left = await page.evaluate(() => {
        const box = document.querySelector('.suggest input[name^="g"]');
        box.click();
        return box.closest(".series").querySelectorAll(".dates-of input").length;
      });
      const all = await page.evaluate(() => document.querySelectorAll('.suggest input[name^="l"]').length);
      await press(page, "/split/accept", "ticked");
      await at(page, "/split");
      await page.until(() => document.activeElement?.id === "notice-filled");
      assert.match(await said(page, "#notice-filled"), new RegExp(`^${all - left} dates have somebody now`));
      await page.until(() => document.querySelector("#say").textContent.includes("dates have somebody now"));
      await press(page, "/split/undo");
      await page.until(() => document.querySelector("#notice-filled") === null);
      assert.equal(await said(page, "header"), before);

      // All of it, and then somebody drops out.
      await go(page, "/split/suggest");
      await press(page, "/split/accept", "all");
      await at(page, "/split");
      await go(page, "/helper/1");
      await press(page, "/helper/1/out");
      await at(page, "/split");
      assert.match(await said(page, "#notice-open"), /Dana can no longer help: \d+ dates need somebody\./);
      await page.evaluate(() => document.querySelector('[data-path="/"]').click());
      await at(page, "/");
      await press(page, "/split/fill");
      await page.until(() => document.querySelector("#notice-filled") !== null);
      const filled = await said(page, "#notice-filled");
      const [, down] = filled.match(/Down for it now: ([^.]+)\./);
      assert.match(down, /Mina \d+|Luis \d+|Tomas \d+|Ruth \d+/);
      assert.doesNotMatch(down, /Dana/);
      assert.equal(await page.evaluate(() => history.state.path), "/");
      await press(page, "/split/fine");
      await page.until(() => document.querySelector("#notice-filled") === null);
    }));

test("chromium: a suggestion has no accessibility finding and fits narrow and wide screens", () =>
  withPage("chromium", phone, async (page) => {
    await demo(page);
    await go(page, "/split");
    await go(page, "/split/suggest");
    await looksRight(page);
    await page.setSize(360, 740);
    await page.evaluate(() => (document.documentElement.style.fontSize = "225%"));
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= 360, `${wide} px wide on a screen of 360 px`);
  }));
