// The page as it stood: what stands there when a plan is opened again, before the core has come. The
// real page, with the core's file held back.

import assert from "node:assert/strict";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import test, { after, before } from "node:test";
import { top } from "../compile.mjs";
import { engines, withPage } from "../engines.mjs";
import { phone, said } from "../family.mjs";
import { holdBack } from "../held.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

let held; // the site with the core's file held back until let go
before(async () => { held = await holdBack(site); });
after(() => held.close());

const homes = mkdtempSync(join(tmpdir(), "newel-homes-"));
after(() => rmSync(homes, { recursive: true, force: true, maxRetries: 5 }));

/** Firefox tells of a module that broke off half-way as of an error, though that is caught. */
function brokenOff(engine, page) {
  if (engine !== "firefox") return;
  for (const error of page.takeErrors()) assert.match(error, /Failed to read data from the ReadableStream/);
}

const shown = (page, selector) => page.evaluate((s) => (document.querySelector(s)?.getClientRects().length ?? 0) > 0, selector);
/** What the line says, without the spaces that do not break. */
const line = async (page) => (await page.text("#stood")).replace(/\s+/g, " ").trim();
const upToDate = (page) => page.until(() => document.querySelector("#next") !== null && document.querySelector("#stood").hidden && history.state?.path === "/");
const standing = (page) => page.until(() => document.querySelector("#next") !== null && !document.querySelector("#stood").hidden);
/** The static page stands there, and the page's script has looked for another one. */
const static_ = (page) => page.until(() => globalThis.newelBegun === undefined && document.querySelector("#waiting")?.hidden === false);

/** A page of the same place on which no script of ours runs. */
const aside = (page) => page.goto(`${held.url}nothing-here`);

/** Puts the example into this device as a plan of its own, and leaves it. Gives the address's fragment. */
async function visited(page) {
  held.letGo();
  await page.goto(`${held.url}#demo`);
  await upToDate(page);
  await page.evaluate(() => { for (const key of Object.keys(localStorage)) if (key.startsWith("newel.demo.")) localStorage.removeItem(key); });
  await page.reload();
  await upToDate(page);
  const fragment = await page.evaluate(() => location.hash);
  await aside(page);
  return fragment;
}

/** Opens the plan again while the core is held back. */
async function again(page, fragment) {
  held.again();
  await page.goto(held.url + fragment);
  await standing(page);
}

for (const engine of engines) {
  test(`${engine}: a plan that is opened again stands there at once, and says as of when, until the core has come`, () => withPage(engine, phone, async (page) => {
    const fragment = await visited(page);
    const before = await page.evaluate(() => JSON.stringify(Object.entries(localStorage).sort()));
    await again(page, fragment);
    const at = await page.evaluate(() => {
      const when = new Date(JSON.parse(localStorage.getItem("newel-stood").split("\n")[0]).at);
      return `${when.getHours() % 12 || 12}:${String(when.getMinutes()).padStart(2, "0")}`;
    });
    assert.match(await line(page), /^As this page stood at [\d:]+( [AP]M)?\. Bringing it up to date…$/);
    if (page.can.language) assert.ok((await line(page)).includes(`at ${at} `), `${await line(page)}: not ${at}`);
    assert.equal(await page.evaluate(() => document.title.includes("Rosa")), true);
    assert.equal(await page.evaluate(() => document.querySelector("#say").textContent), "", "nothing is read out");
    assert.equal(await page.evaluate(() => JSON.stringify(Object.entries(localStorage).sort())), before, "nothing is stored, and nothing marked as read");
    const places = () => page.evaluate(() => ["#title", "#next", "#days"].map((s) => document.querySelector(s).getBoundingClientRect().top));
    const [tops, entries] = [await places(), await page.evaluate(() => history.length)];
    held.letGo();
    await upToDate(page);
    assert.deepEqual(await places(), tops, "nothing moves");
    assert.equal(await page.evaluate(() => history.length), entries);
    assert.equal(await page.evaluate(() => location.hash), fragment);
    assert.equal(await shown(page, "#trouble"), false);
    for (const url of await page.requests()) assert.ok(url.startsWith(held.url), url);
    await page.click("#day-3-0-box");
    await page.until(() => document.querySelector("#say").textContent.startsWith("Done:"));
  }));

  test(`${engine}: what is ticked and tapped meanwhile waits for the core, and is not lost`, () => withPage(engine, phone, async (page) => {
    const fragment = await visited(page);
    await again(page, fragment);
    await page.click("#day-3-0-box");
    await page.click("#day-1-0-box");
    await page.until(() => document.querySelector("#stood").innerText.includes("What you tapped comes once it is up to date."));
    await page.evaluate(() => document.querySelector('#app [data-path="/facts"]').click());
    held.letGo();
    await page.until(() => history.state?.path === "/facts" && document.querySelector(".facts-form") !== null);
    await page.back();
    await page.until(() => document.querySelector("#day-3-0-box") !== null);
    const boxes = () => page.evaluate(() => ["#day-3-0-box", "#day-1-0-box"].map((s) => document.querySelector(s).checked));
    assert.deepEqual(await boxes(), [true, true]);
    const now = await page.evaluate(() => location.hash);
    assert.notEqual(now, fragment, "the ticks are in the link");
    await aside(page);
    await page.goto(held.url + fragment);
    await page.until(() => document.querySelector("#day-3-0-box") !== null && document.querySelector("#stood").hidden);
    assert.deepEqual(await boxes(), [true, true], "and on this device");
  }));

  test(`${engine}: the answer comes as a refresh does: a fold, the focus, a tick and the place stay`, () => withPage(engine, phone, async (page) => {
    const fragment = await visited(page);
    await again(page, fragment);
    const fold = await page.evaluate(() => {
      const one = [...document.querySelectorAll("#app details[id]:not([open])")].find((f) => f.getClientRects().length > 0);
      one.querySelector("summary").click();
      return one.id;
    });
    await page.click("#day-3-0-box");
    const state = () => page.evaluate((id) => ({
      open: document.getElementById(id).open, focus: document.activeElement.id, ticked: document.querySelector("#day-3-0-box").checked,
      top: Math.round(document.querySelector("#day-3-0-box").getBoundingClientRect().top),
    }), fold);
    const then = await state();
    assert.deepEqual([then.open, then.focus, then.ticked], [true, "day-3-0-box", true]);
    held.letGo();
    await page.until(() => document.querySelector("#say").textContent.startsWith("Done:"));
    const now = await state();
    assert.ok(Math.abs(now.top - then.top) <= 2, `the box stood at ${then.top} and stands at ${now.top}`);
    assert.deepEqual([now.open, now.focus, now.ticked], [true, "day-3-0-box", true]);
  }));

  test(`${engine}: a reload comes back to the place where it was read`, () => withPage(engine, phone, async (page) => {
    await visited(page);
    await page.goto(`${held.url}#last`);
    await upToDate(page);
    const top = () => page.evaluate(() => Math.round(document.querySelector("#signs").getBoundingClientRect().top));
    await page.evaluate(() => { document.querySelector("#signs").scrollIntoView({ block: "center" }); });
    await page.evaluate(() => new Promise((done) => { setTimeout(done, 500); }));
    const then = await top();
    held.again();
    await page.reload();
    await standing(page);
    await page.evaluate(() => new Promise((done) => { setTimeout(done, 500); }));
    const stood = await top();
    held.letGo();
    await upToDate(page);
    await page.evaluate(() => new Promise((done) => { setTimeout(done, 500); }));
    const now = await top();
    // WebKit goes no further down than the static page, with this page and without it.
    if (engine !== "webkit") assert.ok(Math.abs(stood - then) <= 2, `the signs stood at ${then} and stand at ${stood}`);
    assert.equal(now, stood, "the answer moves nothing");
  }));

  test(`${engine}: another link, another language, another release: the static page waits as ever`, () => withPage(engine, phone, async (page) => {
    const fragment = await visited(page);
    const kept = await page.evaluate(() => localStorage.getItem("newel-stood"));
    const other = /^fragment: (.*)$/m.exec(readFileSync(join(top, "testdata/link/heads/last-day.txt"), "utf8"))[1];
    const changes = {
      link: { address: `#${other}` },
      front: { address: "" },
      language: { storage: { "newel.language": "es" } },
      release: { storage: { "newel-stood": kept.replace(/\[\\"[^"]*\\"/, '[\\"ANOTHER1\\"') } },
    };
    assert.notEqual(changes.release.storage["newel-stood"], kept);
    held.again();
    for (const [name, { address = fragment, storage = {} }] of Object.entries(changes)) {
      await page.evaluate((entries) => { for (const [key, value] of Object.entries(entries)) localStorage.setItem(key, value); }, storage);
      await page.goto(held.url + address);
      await static_(page);
      assert.equal(await page.evaluate(() => document.querySelector("#next") === null), true, name);
      assert.equal(await shown(page, "#stood"), false, name);
      await aside(page);
      await page.evaluate((text) => { localStorage.removeItem("newel.language"); localStorage.setItem("newel-stood", text); }, kept);
    }
    await again(page, fragment); // with everything as it was it stands there
    await page.evaluate((hash) => { location.hash = hash; }, `#${other}`);
    await page.until(() => document.querySelector("#first-line")?.hidden === false && document.querySelector("#next") === null);
    assert.equal(await shown(page, "#stood"), false, "another plan's link is not over this one's page");
  }));

  test(`${engine}: in Spanish it stands there in Spanish`, () => withPage(engine, phone, async (page) => {
    await visited(page);
    held.letGo();
    await page.goto(`${held.url}#last`);
    await upToDate(page);
    await page.evaluate(() => document.querySelector("#language-es").click());
    await page.until(() => document.documentElement.lang === "es" && document.querySelector("#next") !== null && document.querySelector("#stood").lang === "es");
    await aside(page);
    held.again();
    await page.goto(`${held.url}#last`);
    await standing(page);
    await page.until(() => document.querySelector("#stood").lang === "es");
    assert.match(await line(page), /^Así estaba a las [\d:]+( [ap]\. m)?\. Se está poniendo al día…$/);
    assert.equal(await page.evaluate(() => document.documentElement.lang), "es");
    held.letGo();
    await upToDate(page);
  }));

  test(`${engine}: with the plan that is removed it goes from this device`, () => withPage(engine, phone, async (page) => {
    const fragment = await visited(page);
    const traces = () => page.evaluate(() => Object.entries({ ...localStorage }).filter(([key, text]) => key === "newel-stood" || text.includes("Rosa")).map(([key]) => key));
    assert.deepEqual(await traces(), ["newel-stood"]);
    await page.goto(held.url);
    await page.until(() => document.querySelector('form[action="/forget"]') !== null);
    await page.evaluate(() => document.querySelector('form[action="/forget"]').requestSubmit());
    await page.until(() => !Object.keys(localStorage).some((key) => key.startsWith("newel.plan.")));
    assert.deepEqual(await traces(), []);
    await aside(page);
    assert.deepEqual(await traces(), []);
    held.again();
    await page.goto(held.url + fragment);
    await static_(page);
    assert.equal(await page.evaluate(() => document.querySelector("#next") === null), true);
  }));

  test(`${engine}: where the core never comes it stays, and says that it could not be brought up to date`, () => withPage(engine, phone, async (page) => {
    const fragment = await visited(page);
    await again(page, fragment);
    await page.click("#day-3-0-box");
    held.gone();
    await page.until(() => document.querySelector('#trouble [data-why="core"]').getClientRects().length > 0);
    assert.match(await line(page), /^As this page stood at .* It could not be brought up to date, and nothing that you change here is kept\.$/);
    assert.ok((await said(page, "#next")).length > 50);
    assert.equal(await page.evaluate(() => document.querySelector("#day-3-0-box").checked), false, "a tick that is not kept is none");
    await page.evaluate(() => document.querySelector("#day-1-0-box").click());
    await page.until(() => !document.querySelector("#day-1-0-box").checked);
    await page.click('.bar a[href="#signs"]');
    assert.ok(await page.evaluate(() => document.querySelector("#signs").getBoundingClientRect().top < 200), "the signs are one tap away");
    brokenOff(engine, page);
  }));

  test(`${engine}: where the line breaks it says so, and goes on by itself`, () => withPage(engine, phone, async (page) => {
    const fragment = await visited(page);
    await again(page, fragment);
    held.lose();
    await page.until(() => document.querySelector("#stood .stalled").getClientRects().length > 0);
    assert.match(await line(page), /^As this page stood at .* Nothing has come for a while\. The page goes on when there is a signal\.$/);
    assert.equal(await shown(page, "#trouble"), false, "nothing has gone wrong for good");
    held.letGo();
    await held.next();
    await upToDate(page);
    brokenOff(engine, page);
  }));

  test(`${engine}: a device that is full is as ever, and the page makes room for the plan`, () => withPage(engine, phone, async (page) => {
    const fragment = await visited(page);
    const fill = () => page.evaluate(() => {
      for (let size = 1 << 20, n = 0; size >= 1; n++) {
        try { localStorage.setItem(`junk-${n}`, "x".repeat(size)); } catch { size >>= 1; }
      }
    });
    await fill();
    held.letGo();
    await page.goto(held.url + fragment);
    await upToDate(page);
    await page.click("#day-3-0-box");
    await page.until(() => document.querySelector("#say").textContent.startsWith("Done:"));
    assert.equal(await shown(page, "#trouble"), false, "the copy made room");
    await fill();
    await aside(page);
    assert.equal(await page.evaluate(() => localStorage.getItem("newel-stood") === null), true, "and took none");
    await page.goto(held.url + fragment);
    await page.until(() => document.querySelector("#day-3-0-box")?.checked);
  }));
}

// The other engine's profile cannot be opened a second time, nor its clock be set.
for (const engine of engines.filter((name) => name !== "webkit"))
  test(`${engine}: on the next day it does not stand there any more, and one that stands over midnight names its day`, async () => {
    const home = mkdtempSync(join(homes, "phone-"));
    let fragment;
    await withPage(engine, { ...phone, home }, async (page) => { fragment = await visited(page); });
    await withPage(engine, { ...phone, home, now: "2026-11-25T05:59:00Z" }, async (page) => { // 23:59
      await again(page, fragment);
      assert.match(await line(page), /^As this page stood at 9:00 AM\. Bringing/);
      await page.evaluate(() => {
        const later = new Date("2026-11-25T06:01:00Z").getTime();
        const Then = Date;
        globalThis.Date = class extends Then { constructor(...args) { super(...(args.length > 0 ? args : [later])); } static now() { return later; } };
        document.dispatchEvent(new Event("visibilitychange"));
      });
      assert.match(await line(page), /^As this page stood on Tuesday, November 24 at 9:00 AM\. Bringing/);
    });
    await withPage(engine, { ...phone, home, now: "2026-11-25T06:01:00Z" }, async (page) => {
      held.again();
      await page.goto(held.url + fragment);
      await static_(page);
      assert.equal(await page.evaluate(() => document.querySelector("#next") === null), true);
      assert.equal(await shown(page, "#stood"), false);
    });
  });
