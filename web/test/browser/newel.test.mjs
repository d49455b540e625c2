// The product itself, in real browsers, as the people it is for use it. The build
// serves a fresh bundle and names it in NEWEL_SITE.

import assert from "node:assert/strict";
import { test } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { dayFromNow, phone, saidApart as said } from "../family.mjs";
import { looksRight } from "../looks.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

/** What a person sees on the whole page. */
const shown = (page) => page.evaluate(() => document.querySelector("#app").innerText.replace(/\s+/g, " "));

const ready = (page, selector = "#next") => page.until((s) => document.querySelector(s) !== null, selector);

for (const engine of engines) {
  test(`${engine}: a helper opens a link and reads their own schedule`, () =>
    withPage(engine, phone, async (page) => {
      await page.goto(`${site}#demo`);
      await ready(page);
      // A device whose language writes 24 hours says 04:15; one with AM and PM says so.
      await use24(page);
      const surgery = await dayFromNow(page, 9);
      const next = await said(page, "#next");
      assert.match(next, /Leave home by 04:15/);
      assert.match(next, /Be there ?05:30/);
      const size = await page.evaluate(() => parseFloat(getComputedStyle(document.querySelector(".lead-time time")).fontSize));
      assert.ok(size >= 40, `the time to leave is ${size} px high, too small for 5 a.m.`);
      for (let wash = 1; wash <= 5; wash++) {
        const day = await dayFromNow(page, 9 - 5 + wash);
        assert.match(await said(page, `#day-${day}`), new RegExp(`Wash ${wash} of 5`), day);
      }
      assert.match(await said(page, `#day-${await dayFromNow(page, 8)}`), /by 23:00 Stop eating/);
      assert.match(await said(page, `#day-${surgery}`), /by 03:30 Stop drinking/);
      assert.match(await said(page, `#day-${surgery}`), /usually 07:30–08:00 Surgery ends/);
      const morning = await said(page, `#day-${await dayFromNow(page, 10)}`);
      assert.match(morning, /Leave home by 07:15 Drive Rosa home the morning after .*Be there ?08:30/);
      const screen = await shown(page);
      for (const words of ["04:15", "Wash 1 of 5", "23:00", "03:30", "08:30", "Rosa: knee replacement"])
        assert.ok(screen.includes(words), `${words} is on the screen, not folded away`);
    }));

  test(`${engine}: a step is ticked, and still is after the browser was closed over it`, () =>
    withPage(engine, phone, async (page) => {
      await page.goto(`${site}#demo`);
      await ready(page);
      await page.click("#day-3-0-box");
      await page.until(() => document.querySelector("#say").textContent.startsWith("Done: Clean the house"));
      await page.reload();
      await ready(page);
      assert.equal(await page.evaluate(() => document.querySelector("#day-3-0-box").checked), true);
      await page.goto(site);
      await ready(page, ".kept");
      assert.match(await said(page, ".kept"), /Rosa: knee replacement/);
    }));
}

async function use24(page) {
  if (!(await said(page, ".clock button")).includes("24")) return;
  await page.click(".clock button");
  await page.until(() => document.querySelector(".clock button").textContent.includes("12-hour"));
}

test("chromium: a plan is started from four facts, mended, and moved", () =>
  withPage("chromium", phone, async (page) => {
    await page.goto(site);
    await ready(page, ".begin");
    await page.click('.begin a[href="#start"]');
    await ready(page, "#field-surgery");
    await page.fill("#field-surgery", "2026-12-03");
    await page.fill("#field-arrival", "05:30");
    await page.fill("#field-drive", "fourty");
    await page.fill("#field-parking", "15");
    await page.click(".submit button");
    await page.until(() => document.activeElement?.id === "problems");
    assert.match(await said(page, "#problems"), /"fourty" is not a whole number/);
    assert.equal(await page.evaluate(() => document.querySelector("#field-surgery").value), "2026-12-03");
    assert.equal(await page.evaluate(() => document.querySelector("#field-arrival").value), "05:30");
    await page.click('#problems a[href="#field-drive"]');
    await page.until(() => document.activeElement?.id === "field-drive");
    await page.fill("#field-drive", "40");
    await page.press("Enter");
    await ready(page);
    assert.match(await said(page, "#next"), /Leave home by 4:15 AM/);
    const address = await page.evaluate(() => location.href);
    await page.click('.ways a[data-path="/facts"]');
    await ready(page, ".facts-form");
    await page.fill("#field-surgery", "2026-12-10");
    await page.click(".submit button");
    await ready(page, "#notice-moved");
    assert.match(await said(page, "#notice-moved"), /Drive to the hospital: from Thu, Dec 3, 4:15 AM to Thu, Dec 10, 4:15 AM/);
    await page.click("#notice-moved button");
    await page.until(() => document.querySelector("#notice-moved") === null);
    // The link of yesterday's text message is tapped again.
    await page.goto(address);
    await page.until((old) => location.href !== old, address);
    assert.match(await said(page, "#title + .when"), /December 10/);
  }));

test("chromium: back goes back, one step at a time", () =>
  withPage("chromium", phone, async (page) => {
    await page.goto(site);
    await ready(page, ".begin");
    await page.click('.begin a[href="#demo"]');
    await ready(page);
    await page.click('.ways a[data-path="/facts"]');
    await ready(page, ".facts-form");
    await page.back();
    await ready(page);
    assert.match(await said(page, "#next"), /Leave home by/);
    await page.back();
    await ready(page, ".begin");
  }));

test("chromium: on the surgery day at five in the morning the page says to be on the way", () =>
  withPage("chromium", phone, async (page) => {
    await page.goto(`${site}#demo`);
    await ready(page);
    const link = await page.evaluate(() => location.hash);
    await withPage("chromium", { ...phone, dark: true, now: "2026-12-03T11:00:00Z" }, async (later) => {
      await later.goto(site + link);
      await ready(later);
      assert.match(await said(later, "#next"), /Today, Thursday You should be on your way/);
      const top = await later.evaluate(() => document.querySelector(".lead-time time").getBoundingClientRect().bottom);
      assert.ok(top < 640, `the time is ${top} px down, below the first look`);
    });
  }));

for (const engine of engines.filter((e) => e !== "webkit"))
  test(`${engine}: without scripts the guide stands, without dates, and says why`, () =>
    withPage(engine, { ...phone, javascript: false }, async (page) => {
      await page.goto(site);
      const html = await (await fetch(site)).text();
      for (const words of ["does not run the program that works out the dates", "Call 911 now", "Wash with the surgical soap, 5 times", "hospital&#39;s own instructions come first"])
        assert.ok(html.includes(words), words);
      assert.ok(!/\b20\d\d-\d\d-\d\d\b/.test(html), "no date in the static page");
      assert.match(await page.text("noscript .notice"), /does not run the program/);
      assert.equal(await page.evaluate(() => document.querySelector("#waiting").hidden), true, "nothing says to wait");
    }));

test("chromium: a damaged link says so and offers what this device has", () =>
  withPage("chromium", phone, async (page) => {
    await page.goto(`${site}#demo`);
    await ready(page);
    const link = await page.evaluate(() => location.href);
    await page.goto(site);
    await page.goto(link.slice(0, -4));
    await page.until(() => document.querySelector("#title")?.textContent.includes("was cut off in sending"));
    assert.match(await shown(page), /Ask whoever sent it to send it again/);
    assert.match(await said(page, ".kept"), /Rosa/);
  }));

const screens = {
  front: async (page) => { await page.goto(site); await ready(page, ".begin"); },
  plan: async (page) => { await page.goto(`${site}#demo`); await ready(page); },
  form: async (page) => { await page.goto(`${site}#start`); await ready(page, "#field-surgery"); },
  problems: async (page) => {
    await screens.form(page);
    await page.fill("#field-drive", "-3");
    await page.click(".submit button");
    await ready(page, "#problems");
  },
  unknown: async (page) => {
    await screens.form(page);
    await page.fill("#field-surgery", "2026-12-03");
    await page.click("#field-stay-2");
    await page.click(".submit button");
    await ready(page);
  },
  "a ride's form": (page) => opened(page, "/duty/new/therapy"),
  "a ride": (page) => opened(page, "/duty/1"),
  "who has a duty": (page) => opened(page, "/who/drive-there"),
  "the calendar's page": (page) => opened(page, "/calendar"),
  "the page for files": async (page) => {
    await opened(page, "/import");
    await page.click("#import-paste summary");
    await page.fill("#field-text", "BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:1\nDTSTART:20270101T100000\nSUMMARY:Visit\nEND:VEVENT\nBEGIN:VEVENT\nUID:2\nSUMMARY:Closed\nEND:VEVENT\nEND:VCALENDAR");
    await page.click(".submit button");
    await ready(page, "#found");
  },
  damaged: async (page) => { await page.goto(`${site}#damaged-link`); await ready(page, ".begin"); },
};

/** Opens another screen of the example by its link. */
async function opened(page, path) {
  await screens.plan(page);
  await page.evaluate((p) => document.querySelector(`[data-path="${p}"]`).click(), path);
  await page.until((p) => history.state?.path === p, path);
}

for (const [name, go] of Object.entries(screens))
  test(`chromium: ${name} has no accessibility finding and fits narrow and wide screens`, () =>
    withPage("chromium", phone, async (page) => {
      await go(page);
      await looksRight(page);
    }));

test("chromium: with twice the text size nothing is cut off", () =>
  withPage("chromium", phone, async (page) => {
    for (const go of [screens.front, screens.plan, screens.form]) {
      await go(page);
      await page.evaluate(() => (document.documentElement.style.fontSize = "225%"));
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      assert.ok(wide <= 360, `${wide} px wide on a screen of 360 px`);
    }
  }));

test("chromium: a row that is ticked stays under the finger", () =>
  withPage("chromium", phone, async (page) => {
    await page.goto(`${site}#demo`);
    await ready(page);
    const top = () => page.evaluate(() => document.querySelector("#day-1-0").getBoundingClientRect().top);
    await page.evaluate(() => document.querySelector("#day-1-0-box").scrollIntoView({ block: "center" })); // as click does
    const before = await top();
    await page.click("#day-1-0-box");
    await page.until(() => document.querySelector("#day-1-0-box").checked);
    assert.ok(Math.abs((await top()) - before) < 2, "moved");
    assert.equal(await page.evaluate(() => document.activeElement.id), "day-1-0-box");
  }));

// What stands further down is laid out after the first frame: a tap may come before that.
for (const engine of engines)
  test(`${engine}: "When to call" leads there also in the moment in which the page comes`, () =>
    withPage(engine, phone, async (page) => {
      await page.goto(`${site}#demo`);
      await ready(page);
      await page.evaluate(() => document.querySelector('#app [data-path="/guide"]').click());
      await page.until(() => history.state?.path === "/guide"); // by the page's own core, which answers at once
      const waiting = await page.evaluate(() => {
        document.querySelector('#app [data-path="/"]').click();
        const waits = document.querySelectorAll(".later").length;
        document.querySelector('.bar a[href="#signs"]').click();
        return waits;
      });
      assert.ok(waiting > 5, `${waiting} parts waited`);
      await page.evaluate(() => new Promise((done) => { setTimeout(done, 500); }));
      const top = await page.evaluate(() => document.querySelector("#signs").getBoundingClientRect().top);
      assert.ok(top >= -1 && top < 100, `the signs stand at ${top}`);
    }));

for (const engine of engines)
  test(`${engine}: what was typed into the form survives a reload, and is gone once it was sent`, () =>
    withPage(engine, phone, async (page) => {
      await screens.form(page);
      await page.fill("#field-patient", "Rosa");
      await page.fill("#field-drive", "40");
      await page.click("#field-joint-1");
      await page.click("#field-fact\\.pets");
      await page.reload();
      await ready(page, ".facts-form");
      const typed = () => page.evaluate(() => [
        document.querySelector("#field-patient").value, document.querySelector("#field-drive").value,
        document.querySelector("#field-joint-1").checked, document.querySelector("#field-fact\\.pets").checked,
      ]);
      assert.deepEqual(await typed(), ["Rosa", "40", true, true]);
      await page.fill("#field-surgery", "2027-03-09");
      await page.click(".submit button");
      await ready(page);
      await page.goto("about:blank");
      await screens.form(page);
      assert.deepEqual(await typed(), ["", "", false, false]);
    }));

test("chromium: another screen is read from its top", () =>
  withPage("chromium", phone, async (page) => {
    await screens.plan(page);
    const at = () => page.evaluate(() => [window.scrollY, document.activeElement.id]);
    await page.evaluate(() => document.querySelector('.settings a[data-path="/"]').click());
    await ready(page, ".kept");
    assert.deepEqual(await at(), [0, "title"]);
    await page.evaluate(() => { window.scrollTo(0, 900); document.querySelector(".kept .open").click(); });
    await ready(page);
    assert.deepEqual(await at(), [0, "title"]);
    await page.evaluate(() => document.querySelector('a[data-path="/facts"]').click());
    await ready(page, ".facts-form");
    await page.evaluate(() => { window.scrollTo(0, 900); document.querySelector('.ways a[data-path="/"]').click(); });
    await ready(page);
    assert.deepEqual(await at(), [0, "title"]);
  }));
