// What stands on the screen before the core has loaded: the day and the time out of the
// link's head. The real page, with the core's file held back.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import test, { after, before } from "node:test";
import { top } from "../compile.mjs";
import { engines, withPage } from "../engines.mjs";
import { holdBack } from "../held.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

/** The fragment of one of the files that both readers of the head are checked by. */
const link = (name) => /^fragment: (.*)$/m.exec(readFileSync(join(top, `testdata/link/heads/${name}.txt`), "utf8"))[1];

let held; // the site with the core's file held back until let go
before(async () => { held = await holdBack(site); });
after(() => held.close());

const phone = { width: 360, height: 740, timezone: "America/Chicago", language: "en-US", now: "2027-02-01T15:00:00Z" };
const started = (page) => page.until(() => document.querySelector("#waiting")?.hidden === false);
/** The line as shown, without the narrow space of 5:30 AM; "" where there is none. */
const line = (page) => page.evaluate(() => document.querySelector("#first-line").innerText.replace(/\s/g, " "));

async function open(page, name) {
  held.again();
  await page.goto("about:blank"); // so that a new fragment is a new load
  await page.goto(`${held.url}#${link(name)}`);
  await started(page);
}

async function prefer(page, clock) {
  await page.evaluate((style) => localStorage.setItem("newel.clock", style), clock);
}

for (const engine of engines) {
  test(`${engine}: the day and the time stand there before the core has come, and go when it comes`, () =>
    withPage(engine, phone, async (page) => {
      await open(page, "last-day"); // far ahead, since not every engine's clock can be held still
      await prefer(page, "24");
      await open(page, "last-day");
      assert.equal(await line(page), "Friday, December 31, 2100, be there at 12:00");
      assert.ok(await page.evaluate(() => document.querySelector("#signs") !== null), "the guide is there as well");
      await prefer(page, "12");
      await open(page, "last-day");
      assert.equal(await line(page), "Friday, December 31, 2100, be there at 12 noon");
      held.letGo();
      await page.until(() => document.querySelector("#waiting") === null);
      assert.ok(await page.evaluate(() => document.querySelector("#first-line") === null));
    }));

  test(`${engine}: a link that was damaged says nothing, and nothing moves either way`, () =>
    withPage(engine, phone, async (page) => {
      const place = () => page.evaluate(() => document.querySelector("#main").getBoundingClientRect().top);
      await open(page, "changed-character");
      assert.equal(await line(page), "");
      const without = await place();
      assert.ok(await page.evaluate(() => document.querySelector(".over p:not(.first)").checkVisibility({ visibilityProperty: true })));
      await open(page, "last-day");
      assert.notEqual(await line(page), "");
      assert.equal(await place(), without);
      for (const name of ["locked", "older", "cut-by-four"]) {
        await open(page, name);
        assert.equal(await line(page), "", name);
      }
    }));
}

for (const engine of engines) {
  test(`${engine}: where the line breaks the page says so, keeps the day, and goes on by itself`, () =>
    withPage(engine, phone, async (page) => {
      await open(page, "last-day");
      held.lose();
      await page.until(() => document.querySelector("#waiting .stalled")?.hidden === false);
      assert.match(await line(page), /December 31, 2100/);
      assert.equal(await page.evaluate(() => document.querySelector("#trouble").hidden), true, "nothing has gone wrong for good");
      held.letGo();
      await held.next(); // it tries every ten seconds, and then the whole file has to come
      await page.until(() => document.querySelector("#waiting") === null);
      // Firefox tells of a module that broke off half-way as of an error, though that is caught.
      if (engine === "firefox") for (const error of page.takeErrors()) assert.match(error, /Failed to read data from the ReadableStream/);
    }));
}

test("chromium: today, in the past, in this year, not known yet", async () => {
  const shown = async (name, clock, options) => {
    let found;
    await withPage("chromium", { ...phone, ...options }, async (page) => {
      await open(page, name);
      await prefer(page, clock);
      await open(page, name);
      found = await line(page);
    });
    return found;
  };
  assert.equal(await shown("arrival-known", "24", {}), "Tuesday, March 9, be there at 05:30");
  assert.equal(await shown("arrival-known", "12", {}), "Tuesday, March 9, be there at 5:30 AM");
  assert.equal(await shown("newer-next", "24", {}), "Tuesday, March 9, be there at 05:30");
  assert.equal(await shown("arrival-unknown", "24", {}), "Tuesday, March 9; the arrival time is not known yet");
  // 05:30 UTC on the 10th is still the 9th in Chicago, and no longer in Auckland.
  const late = { now: "2027-03-10T05:30:00Z" };
  assert.equal(await shown("arrival-known", "24", late), "Tuesday, March 9, be there at 05:30");
  assert.equal(await shown("arrival-known", "24", { ...late, timezone: "Pacific/Auckland" }), "Surgery was on Tuesday, March 9");
});

test("chromium: this device's own plan says another day or time than the link", () =>
  withPage("chromium", phone, async (page) => {
    const keep = (name) => page.evaluate((fragment) => localStorage.setItem("newel.plan.8f1c02d7", fragment), link(name));
    const day = "Tuesday, March 9";
    await open(page, "arrival-known");
    await prefer(page, "24");
    for (const name of ["arrival-known", "hip-same-day-revision", "older", "cut-by-four"]) {
      await keep(name); // the same day and time, or no head
      await open(page, "arrival-known");
      assert.equal(await line(page), `${day}, be there at 05:30`, name);
    }
    await keep("arrival-unknown");
    await open(page, "arrival-known");
    assert.equal(await line(page),
      `This link says: ${day}, be there at 05:30. The plan on this device says: ${day}; the arrival time is not known yet.`);
    await open(page, "arrival-unknown");
    assert.equal(await line(page), `${day}; the arrival time is not known yet`);
    await open(page, "first-minute"); // another plan
    assert.doesNotMatch(await line(page), /This link says/);
  }));

test("chromium: another link in the address is another line", () =>
  withPage("chromium", phone, async (page) => {
    await open(page, "arrival-known");
    await page.evaluate((fragment) => { location.hash = fragment; }, link("hip-same-day-revision"));
    await page.evaluate((fragment) => { location.hash = fragment; }, link("changed-character"));
    await page.until(() => document.querySelector("#first-line").hidden);
    await page.evaluate((fragment) => { location.hash = fragment; }, link("arrival-unknown"));
    await page.until(() => /not known yet/.test(document.querySelector("#first-line").innerText));
  }));
