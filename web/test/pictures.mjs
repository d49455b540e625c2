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

/** One picture: who looks, at what, what they have scrolled to, and which of its screens they have opened, one after the other. */
async function picture(name, options, fragment, to, ...paths) {
  await withPage("chromium", { ...phone, ...options }, async (page) => {
    await page.goto(site + fragment);
    await page.until(() => document.querySelector("#waiting") === null && document.querySelector("#title, #next") !== null);
    for (const path of paths) {
      await page.evaluate((p) => document.querySelector(`[data-path="${p}"]`).click(), path);
      await page.until((p) => history.state?.path === p, path);
    }
    if (to) await page.evaluate((s) => document.querySelector(s).scrollIntoView(), to);
    await page.screenshot(join(folder, `${name}.png`), false);
  });
}

await picture("next", {}, "#demo");
await picture("surgery-day", {}, "#demo", "#day-2026-12-03");
await picture("when-to-call", { dark: true }, "#demo", "#signs");
await picture("ride", {}, "#demo", undefined, "/duty/1");
await picture("wide", { width: 1280, height: 800 }, "#demo");
await picture("who-does-what", {}, "#demo", undefined, "/split");
await picture("suggested", {}, "#demo", undefined, "/split", "/split/suggest");
await endBrowsers();
