// Rides, help and calendars in real browsers, phone-sized, as a family uses them. The
// build serves a fresh bundle and names it in NEWEL_SITE.

import assert from "node:assert/strict";
import { test } from "node:test";
import { engines, withPage } from "../engines.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const phone = { width: 360, height: 740, timezone: "America/Chicago", language: "en-US", now: "2026-11-24T15:00:00Z" };

const said = (page, selector) =>
  page.evaluate((s) => document.querySelector(s)?.textContent.replace(/\s+/g, " ").trim() ?? "", selector);

/** Opens the example and goes to a screen of it by its link. */
async function demo(page) {
  await page.goto(`${site}#demo`);
  await page.until(() => document.querySelector("#family") !== null);
}

async function go(page, path) {
  await page.evaluate((p) => {
    const link = document.querySelector(`[data-path="${p}"]`);
    for (let box = link; box; box = box.parentElement) if (box instanceof HTMLDetailsElement) box.open = true;
    link.scrollIntoView({ block: "center" });
  }, path);
  await page.click(`[data-path="${path}"]`);
  await page.until((p) => history.state?.path === p, path);
}

/**
 * Puts a value into a field. Date and time fields are set as their picker does: how
 * they are typed into differs from one engine and language to the next.
 */
const put = (page, name, value) =>
  page.evaluate((n, v) => {
    const field = document.querySelector(n.startsWith("#") ? n : `[name="${n}"]`);
    field.value = v;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }, name, value);

const choose = (page, name, value) =>
  page.evaluate((n, v) => document.querySelector(`[name="${n}"][value="${v}"]`).closest("label").click(), name, value);

const seen = (page, selector) =>
  page.evaluate((s) => document.querySelector(s).getClientRects().length > 0, selector);

/** Nothing to scroll sideways, nothing too small for a thumb (WCAG 2.2, 1.4.10 and 2.5.5). */
async function fits(page, screen) {
  const found = await page.evaluate(() => {
    const wide = document.documentElement.scrollWidth - window.innerWidth;
    const small = [...document.querySelectorAll("main button, main summary, main input:not([type=hidden]), main select, main textarea, main a.second, main a.main, .duties a")]
      .filter((e) => e.getClientRects().length > 0)
      .map((e) => [e, (e.closest("label") ?? e).getBoundingClientRect()])
      .filter(([, box]) => box.height < 44 || box.width < 44)
      .map(([e, box]) => `${e.tagName} ${e.id || e.textContent} ${box.width}×${box.height}`);
    return { wide, small };
  });
  assert.ok(found.wide <= 0, `${screen}: ${found.wide} px too wide`);
  assert.deepEqual(found.small, [], `${screen}: too small to tap`);
}

/** Catches the file that the page hands over, instead of having it saved. */
const catchFile = (page) =>
  page.evaluate(() => {
    window.caught = "";
    const made = URL.createObjectURL;
    URL.createObjectURL = (blob) => {
      blob.text().then((text) => { window.caught = text; });
      return made.call(URL, blob);
    };
    document.addEventListener("click", (event) => {
      if (event.target.closest?.("a[data-file][download]")) event.preventDefault();
    }, true);
  });

/** Chooses a file with that text, as the picker does; in one byte a letter if latin. */
const giveFile = (page, text, latin = false) =>
  page.evaluate((t, narrow) => {
    const transfer = new DataTransfer();
    const content = narrow ? Uint8Array.from(t, (letter) => letter.charCodeAt(0)) : t;
    transfer.items.add(new File([content], "clinic.ics", { type: "text/calendar" }));
    document.querySelector("[name=file]").files = transfer.files;
  }, text, latin);

const submit = (page) => page.evaluate(() => document.querySelector("main .facts-form .submit button").click());

for (const engine of engines) {
  test(`${engine}: a ride that repeats is put in with ordinary controls and read back in words`, () =>
    withPage(engine, phone, async (page) => {
      await demo(page);
      await fits(page, "the plan");
      await go(page, "/duty/new/therapy");
      await fits(page, "the form");
      assert.equal(await seen(page, "#field-day-1"), true, "the days of the week, since it is weekly");
      assert.equal(await seen(page, "#field-rule"), false, "nobody has to know what a rule text is");
      await choose(page, "often", "once");
      assert.equal(await seen(page, "#field-day-1"), false);
      assert.equal(await seen(page, "#field-weeks"), false);
      await choose(page, "often", "weekly");
      await choose(page, "ends", "times");
      assert.equal(await seen(page, "#field-times"), true);
      assert.equal(await seen(page, "#field-weeks"), false);
      await put(page, "first", "2027-01-11");
      await put(page, "at", "15:30");
      await put(page, "times", "8");
      await page.click("#field-day-1");
      await page.click("#field-day-4");
      await submit(page);
      await page.until(() => history.state?.path === "/duty/7");
      const page1 = await said(page, "header");
      assert.match(page1, /Mondays and Thursdays at (3:30\sPM|15:30) from Monday, January 11, 2027: 8 rides in all, the last on Thursday, February 4, 2027/);
      assert.match(await said(page, ".next-date"), /Leave home by (2:35\sPM|14:35)/);
      await fits(page, "the duty");

      // One date falls out, another is moved; both can be taken back.
      await page.evaluate(() => { document.querySelector("#one-date").open = true; });
      await put(page, "#date-day", "2027-01-18");
      await page.click("#one-date [value=skip]");
      await page.until(() => document.querySelector("header").textContent.includes("not on Monday, January 18"));
      await page.evaluate(() => { document.querySelector("#one-date").open = true; });
      await put(page, "#date-day", "2027-01-21");
      await put(page, "#date-to", "2027-01-22");
      await put(page, "#date-at", "09:00");
      await page.click("#one-date [value=move]");
      await page.until(() => document.querySelector("header").textContent.includes("the one on Thursday, January 21, 2027 is on Friday, January 22, 2027"));
      await fits(page, "the duty with changed dates");

      // A form that was sent leaves nothing behind that "back" cannot get past.
      await go(page, "/duty/7/change");
      await submit(page);
      await page.until(() => history.state?.path === "/duty/7");
      const path = () => page.evaluate(() => history.state?.path);
      let steps = 0;
      for (; (await path()) !== "/" && steps < 8; steps++) {
        await page.back();
        await new Promise((resolve) => setTimeout(resolve, 300));
      }
      assert.ok(steps <= 3, `it took ${steps} times "back" to the plan`);
    }));

  test(`${engine}: a calendar file is made, and read again nothing is doubled`, () =>
    withPage(engine, phone, async (page) => {
      await demo(page);
      await go(page, "/calendar");
      await fits(page, "the calendar's page");
      await catchFile(page);
      await page.evaluate(() => document.querySelector("#field-steps").closest("label").click());
      await submit(page);
      await page.until(() => window.caught !== "");
      const file = await page.evaluate(() => window.caught);
      assert.ok(file.startsWith("BEGIN:VCALENDAR\r\n") && file.endsWith("END:VCALENDAR\r\n"));
      assert.match(file, /\r\nRRULE:FREQ=WEEKLY;BYDAY=MO,WE,FR;UNTIL=/);
      assert.match(file, /\r\nTRIGGER:-PT30M\r\n/);
      assert.match(await said(page, "#notice-calendar"), /The file was made/);
      assert.equal(await seen(page, "a[data-file]"), true, "the file can be opened by a tap, too");
      await fits(page, "the calendar's page with its file");

      await go(page, "/import");
      await fits(page, "the page for files");
      await giveFile(page, file);
      await submit(page);
      await page.until(() => document.querySelector("#found") !== null);
      const found = await said(page, "#found");
      assert.match(found, /6 entries are in the plan already, just so/);
      assert.match(found, /entries are made by the plan itself and were left alone/);
      await fits(page, "what a file has");

      // Somebody moved the cat in their own calendar and sends the file back: a quarter of an hour
      // later, from Luis's leaving home until he is back.
      await giveFile(page, file.replaceAll("T071500", "T073000").replaceAll("T080500", "T082000"));
      await submit(page);
      await page.until(() => document.querySelector("#found")?.textContent.includes("It changes what the plan has: Feed the cat"));
      await page.evaluate(() => document.querySelector("#found form button").click());
      await page.until(() => document.querySelector("#family") !== null);
      assert.match(await said(page, "#family"), /Every day at 7:45\sAM|Every day at 07:45/);
      assert.equal(await page.evaluate(() => document.querySelectorAll("#family .duties li").length), 6);
    }));

  test(`${engine}: a clinic's file becomes a ride, and what cannot be taken over is listed`, () =>
    withPage(engine, phone, async (page) => {
      await demo(page);
      await go(page, "/import");
      await submit(page);
      await page.until(() => document.querySelector("#problem-file") !== null);
      const event = (uid, lines) => ["BEGIN:VEVENT", `UID:${uid}`, "DTSTAMP:20261120T120000Z", ...lines, "END:VEVENT"];
      const file = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Alder Ferry//Clinic//EN",
        ...event("a", ["DTSTART:20261217T141500", "DTEND:20261217T144500", "SUMMARY:Follow-up José", "LOCATION:Desk B\\, ground floor"]),
        ...event("b", ["DTSTART;VALUE=DATE:20261218", "SUMMARY:Clinic closed"]), "END:VCALENDAR", ""].join("\r\n");
      await giveFile(page, file, true); // as an old system writes it
      await submit(page);
      await page.until(() => document.querySelector("#found") !== null);
      const found = await said(page, "#found");
      assert.match(found, /1 entry can be put in the plan ?Follow-up José ?Thursday, December 17 at (2:15\sPM|14:15) ?Desk B, ground floor/);
      assert.match(found, /Cannot be put in ?Clinic closed:/);
      await page.evaluate(() => document.querySelector("#found form button").click());
      await page.until(() => document.querySelector("#family")?.textContent.includes("Follow-up José"));
    }));
}
