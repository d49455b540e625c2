// The guide, in real browsers: what counts now stands first, a chapter is read and ticked, the
// numbers to call are the hospital's, and all of it can be read without a plan. The build serves
// a fresh bundle and names it in NEWEL_SITE.

import assert from "node:assert/strict";
import { test } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { at, go, open, phone, saidApart as said, unfold } from "../family.mjs";
import { looksRight } from "../looks.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

async function demo(page) {
  await page.goto(`${site}#demo`);
  await page.until(() => document.querySelector("#family") !== null);
}

const focused = (page) => page.evaluate(() => document.activeElement?.id ?? "");

for (const engine of engines)
  test(`${engine}: the guide shows what counts now, and a chapter is read and ticked`, () =>
    withPage(engine, phone, async (page) => {
      await demo(page);
      await go(page, "/guide");
      await page.until(() => document.activeElement?.id === "title");
      assert.match(await said(page, "#now"), /^Now Get ready 0 of \d+ done Set up the home 0 of \d+ done Equipment/, "nine days before");
      assert.match(await said(page, "#chapters"), /The washing days .* Therapy weeks .*When to call$/);

      await go(page, "/guide/home");
      const before = await said(page, "#list-home-title");
      assert.match(before, /^What to do 0 of \d+ done$/);
      assert.match(await said(page, "#item-11-0"), /Take up the throw rugs by .*, .* Why:/, "its words stand open");
      await page.evaluate(() => document.querySelector("#item-11-0-box").focus());
      await page.press(" ");
      await page.until((text) => document.querySelector("#list-home-title").textContent.replace(/\s+/g, " ").trim() !== text, before);
      assert.match(await said(page, "#list-home-title"), /^What to do 1 of/);
      assert.equal(await page.evaluate(() => history.state.path), "/guide/home", "it stays in its chapter");
      assert.equal(await focused(page), "item-11-0-box");
      await page.reload();
      await at(page, "/guide/home");
      assert.equal(await page.evaluate(() => document.querySelector("#item-11-0-box").checked), true);

      // The link of the next chapter holds the plan, so a new tab opens it too.
      const next = await page.evaluate(() => document.querySelector(".chapter-ways .after").getAttribute("href"));
      assert.equal(next, await page.evaluate(() => location.hash));
      await page.click(".chapter-ways .after");
      await at(page, "/guide/equipment");
      assert.match(await said(page, "main"), /What is needed .*What may help/);
      await page.back();
      await at(page, "/guide/home");
      await go(page, "/");
      assert.match(await said(page, "#list-home summary"), /1 of/);
      await unfold(page, "list-home");
      assert.match(await said(page, "#list-home"), /Ways through the home .*Bathroom/);
      await open(page, site + next);
      assert.match(await said(page, "#list-home summary"), /1 of/);
    }));

for (const engine of engines)
  test(`${engine}: the guide is read without a plan, and the numbers are links`, () =>
    withPage(engine, phone, async (page) => {
      await page.goto(site);
      await page.until(() => document.querySelector("#waiting") === null);
      assert.match(await said(page, "#chapter-washing"), /The washing days .*Why: /);
      assert.match(await said(page, "#signs"), /Call 911 now 911 is the number in the United States/);
      await go(page, "/sources");
      assert.match(await said(page, "main"), /Common practice.* Anesthesiology 2017;126\(3\):376-393/);
      await go(page, "/guide");
      await go(page, "/guide/weeks");
      assert.match(await said(page, "#limits"), /are not in here/, "no limit of movements is assumed");
      await page.back();
      await at(page, "/guide");
      await page.back();
      await at(page, "/sources");

      await demo(page);
      await go(page, "/guide");
      await go(page, "/guide/signs");
      const calls = await page.evaluate(() => [...document.querySelectorAll('#app [href^="tel:"]')].map((a) => a.getAttribute("href")));
      assert.deepEqual([...new Set(calls)].sort(), ["tel:5550142", "tel:911"]);
      assert.match(await said(page, "#signs"), /knee replacement/, "what to say names the operation");
    }));

if (engines.includes("chromium"))
  test("chromium: chapters are reached by keyboard, and every page of the guide looks right by day and at night", () =>
    withPage("chromium", phone, async (page) => {
      await demo(page);
      await go(page, "/guide");
      await page.evaluate(() => document.querySelector("#now a").focus());
      await page.press("Tab");
      await page.press("Enter");
      await at(page, "/guide/home");
      assert.equal(await focused(page), "title");
      for (const path of ["/guide", "/guide/washing", "/guide/home", "/guide/day", "/guide/waiting", "/guide/first", "/guide/weeks", "/guide/therapy", "/guide/signs", "/sources"]) {
        await page.setDark(false);
        await page.setSize(360, 740);
        await go(page, "/");
        await go(page, "/guide");
        if (path !== "/guide") await go(page, path);
        await looksRight(page);
      }
    }));

if (engines.includes("chromium"))
  test("chromium: after surgery the signs of a clot stay in view, in Spanish too", async () => {
    let link = "";
    await withPage("chromium", phone, async (page) => {
      await demo(page);
      link = await page.evaluate(() => location.href);
    });
    // The example's surgery is nine days after today.
    for (const [now, shown] of [["2026-12-06T15:00:00Z", true], ["2027-01-07T15:00:00Z", true], ["2027-01-08T15:00:00Z", false]])
      await withPage("chromium", { ...phone, now, language: "es-US" }, async (page) => {
        await open(page, link);
        assert.equal(await page.evaluate(() => document.querySelector("#clots") !== null), shown, now);
        if (!shown) return;
        const where = await page.evaluate(() => ["#next", "#clots", "#actions"].map((s) => document.querySelector(s).getBoundingClientRect().top));
        assert.deepEqual(where, [...where].sort((a, b) => a - b), "right after what is next");
        if (now.startsWith("2026")) await looksRight(page);
      });
  });
