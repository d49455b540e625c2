// Takes the pictures of the README: node web/test/pictures.mjs FOLDER, with the
// served page in NEWEL_SITE. `go run ./build pictures` does both.

import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { endBrowsers, withPage } from "./engines.mjs";

const site = process.env.NEWEL_SITE;
const folder = process.argv[2];
if (!site || !folder) throw new Error("run this through `go run ./build pictures`");
await mkdir(folder, { recursive: true });

const phone = { width: 360, height: 740, timezone: "America/Chicago", language: "en-US", now: "2026-11-24T15:00:00Z" };

/** One picture: who looks, at what, what they have scrolled to, and which of its screens they have opened or what they did, one after the other. */
async function picture(name, options, fragment, to, ...paths) {
  await withPage("chromium", { ...phone, ...options }, async (page) => {
    await page.goto(site + fragment);
    await page.until(() => document.querySelector("#waiting") === null && document.querySelector("#title, #next") !== null);
    for (const step of paths) {
      if (typeof step === "function") {
        await step(page);
        continue;
      }
      await page.evaluate((p) => document.querySelector(`[data-path="${p}"]`).click(), step);
      await page.until((p) => history.state?.path === p, step);
    }
    if (to) await page.evaluate((s) => document.querySelector(s).scrollIntoView(), to);
    await page.screenshot(join(folder, `${name}.png`), false);
  });
}

await picture("next", {}, "#demo");
await picture("surgery-day", {}, "#demo", ".day.surgery");
await picture("fasting", { dark: true }, "#demo", "#fast-1");
await picture("cover", {}, "#demo", ".cover-grid", "/split");
await picture("home", {}, "#demo", ".home-figure", "/guide", "/guide/home");

/** The example hospital's desk, with rows of which one is wrong. */
async function rows(page) {
  await page.evaluate(() => document.querySelector("#notice-common .second").click());
  await page.until(() => location.hash.startsWith("#desk."));
  await page.evaluate(() => document.querySelector('[data-path="/desk/rows"]').click());
  await page.until(() => document.querySelector("#field-text") !== null);
  await page.evaluate(() => {
    document.querySelector("#field-text").value = ["Label\tSurgery date\tArrival\tJoint\tStay", "A1\t12/10/2026\t5:30 AM\tknee\tone night",
      "A2\t12/32/2026\t7:15 AM\thip\tone night", "A3\t12/11/2026\t\thip\tsame day", "A4\t12/14/2026\t6:00 AM\tknee\tnot decided"].join("\n");
    document.querySelector("#table-check").click();
  });
  await page.until(() => document.querySelector("#outcome") !== null);
}

const room = { width: 1280, height: 800 };
await picture("desk", room, "#desk", ".desk-rail", rows);
await endBrowsers();
