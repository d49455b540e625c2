// The tab is killed at any moment after a tap: the page's process dies (Chromium's own command for it), and
// with it whatever it had not handed to the browser yet. What is opened next is the plan before the
// tap or after it, never none and never half of one. Chromium, whose processes can be ended one by one.

import assert from "node:assert/strict";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import test from "node:test";
import puppeteer from "puppeteer-core";
import { engines } from "../engines.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const times = process.env.NEWEL_LONG === "1" ? 200 : 12;

/** A whole number below n, the same at each run. */
let seed = 20_261_127;
const chance = (n) => {
  seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0; // Numerical Recipes' generator, from memory
  return Math.floor((seed / 2 ** 32) * n);
};

const timely = (promise, what) => {
  let late;
  return Promise.race([promise, new Promise((_, fail) => { late = setTimeout(() => fail(new Error(`waited 30 s for ${what}`)), 30_000); })]).finally(() => clearTimeout(late));
};

/** Opens the link as it was sent, so that all else comes out of the device's storage; gives the first boxes. */
async function opened(browser, fragment) {
  const page = await browser.newPage();
  await page.goto(`${site}${fragment}`, { waitUntil: "load" });
  await page.waitForFunction(() => document.querySelector("#next") !== null && document.querySelector("#waiting") === null && document.querySelector("#stood").hidden && typeof globalThis.newelHandle === "function");
  await page.evaluate(() => { const fold = document.querySelector("#lists details.list"); if (!fold.open) fold.querySelector("summary").click(); });
  await page.waitForFunction(() => document.querySelector('#lists details.list[open]:not([data-fold="left"]) form.tick input') !== null);
  const boxes = await page.evaluate(() => [...document.querySelectorAll("#lists details.list[open] form.tick input[type=checkbox]")].map((box) => box.checked));
  const trouble = await page.evaluate(() => !document.querySelector("#trouble").hidden || document.querySelector("#notice-damaged-here") !== null);
  return { page, boxes, trouble };
}

/** Ends the page's process after so many milliseconds; resolves when it is gone. */
async function kill(page, after) {
  const session = await page.createCDPSession();
  const gone = new Promise((resolve) => {
    session.on("Inspector.targetCrashed", resolve);
    session.on("disconnected", resolve);
    page.once("error", resolve);
  });
  await session.send("Inspector.enable");
  if (after > 0) await new Promise((resolve) => setTimeout(resolve, after));
  void session.send("Page.crash").catch(() => undefined);
  await timely(gone, "the tab to die");
  await timely(page.close().catch(() => undefined), "the dead tab to close");
}

test(`chromium: the tab is killed ${times} times while it saves`, async (t) => {
  if (!engines.includes("chromium")) return t.diagnostic("Chromium is not among the engines of this run");
  const home = mkdtempSync(join(tmpdir(), "newel-killed-"));
  const browser = await puppeteer.launch({
    executablePath: process.env.NEWEL_CHROMIUM ?? "/usr/bin/chromium", userDataDir: home,
    args: ["--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-component-update"],
  });
  try {
    const first = await browser.newPage(); // keeps the browser alive
    await first.goto(`${site}#demo`, { waitUntil: "load" });
    await first.waitForFunction(() => document.querySelector("#next") !== null && location.hash.length > 100);
    const fragment = await first.evaluate(() => location.hash);
    await first.goto("about:blank");
    let was = await opened(browser, fragment);
    const came = { before: 0, after: 0 };
    for (let n = 0; n < times; n++) {
      const i = chance(Math.min(5, was.boxes.length));
      const session = was.page;
      await session.evaluate((box) => { document.querySelectorAll("#lists details.list[open] form.tick input[type=checkbox]")[box].click(); }, i);
      await kill(session, chance(n % 2 === 0 ? 8 : 120));
      const then = was.boxes.with(i, !was.boxes[i]);
      const now = await opened(browser, fragment);
      assert.equal(now.trouble, false, `after kill ${n + 1}`);
      const after = JSON.stringify(now.boxes) === JSON.stringify(then);
      assert.ok(after || JSON.stringify(now.boxes) === JSON.stringify(was.boxes), `after kill ${n + 1}: ${now.boxes} is neither ${was.boxes} nor ${then}`);
      came[after ? "after" : "before"]++;
      was = now;
    }
    t.diagnostic(`${times} kills: ${came.before} times the plan was as before the tap, ${came.after} times as after it`);
    assert.ok(came.before > 0 || came.after > 0);
  } finally {
    await browser.close();
    rmSync(home, { recursive: true, force: true, maxRetries: 5 });
  }
});
