// Handing a plan over, in real browsers: the ways of sending its link, one helper's part,
// the lock, starting afresh; and what comes of links that are pasted, damaged or newer.

import assert from "node:assert/strict";
import { createDecipheriv, pbkdf2Sync } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { setTimeout as pause } from "node:timers/promises";
import { top } from "../compile.mjs";
import { engines, withPage } from "../engines.mjs";
import { copyLink, dayFromNow, go, open, paste, phone, said, send } from "../family.mjs";
import { looksRight } from "../looks.mjs";
import { readCodes } from "../zbar.mjs";
import { startHost } from "./stage/host.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const pictures = mkdtempSync(join(tmpdir(), "newel-codes-"));
after(() => rmSync(pictures, { recursive: true }));

/** The example on its own page for sending it; gives its address. */
async function linkPage(page) {
  await open(page, `${site}#demo`);
  await go(page, "/link");
  return page.evaluate(() => location.href);
}

const address = (page) => page.evaluate(() => document.querySelector("#address").value);
const fragment = (link) => link.slice(link.indexOf("#") + 1);
const stored = (page) => page.evaluate(() => JSON.stringify([{ ...localStorage }, { ...sessionStorage }, history.state, location.href]));
const title = (page) => said(page, "#title");

/** Waits for a page with that title, which may come without a tap: locking takes a while. */
const titled = (page, words) => page.until((w) => document.querySelector("#title")?.textContent.includes(w), words);

/** Opens the fold with the code and reads it off a picture of the page, as a camera does. */
async function codeOnScreen(page, name) {
  await page.click("#link-code summary");
  await page.until(() => document.querySelector("#link-code [data-code] svg") !== null);
  await page.evaluate(() => document.querySelector("#link-code [data-code]").scrollIntoView({ block: "center" }));
  const file = join(pictures, `${name}.png`);
  // As a camera does, it looks until there is a code: an engine may not have painted yet.
  for (let look = 0; ; look++) {
    await page.screenshot(file, false);
    const codes = readCodes(file);
    if (codes.length > 0 || look === 20) return codes;
    await pause(100);
  }
}

for (const engine of engines) {
  test(`${engine}: the link goes by message, by copy, by hand and by QR code, and it is the same link`, () =>
    withPage(engine, phone, async (page) => {
      const link = await linkPage(page);
      assert.equal(await address(page), link);
      assert.equal(await copyLink(page), link);

      // RFC 5724 2.2: sms: and a body, percent-encoded but for RFC 3986's unreserved letters.
      const sms = await page.evaluate(() => document.querySelector("#link-sms").getAttribute("href"));
      assert.match(sms, /^sms:\?body=(?:[A-Za-z0-9._~-]|%[0-9A-F]{2})+$/);
      const message = decodeURIComponent(sms.slice("sms:?body=".length));
      assert.ok(message.endsWith(` ${link}`), message);
      // 3GPP TS 23.038: letters of the default alphabet, as far as English needs them, 160 in
      // one message and 153 in each of several.
      assert.match(message, /^[A-Za-z0-9 !"#$%&'()*+,\-./:;<=>?@_]+$/);
      const parts = message.length <= 160 ? 1 : Math.ceil(message.length / 153);
      assert.match(await said(page, "#link-parts"), new RegExp(`make ${parts} text messages?\\.`));

      const drawn = async () => (await page.requests()).filter((url) => new URL(url).pathname.startsWith("/qr-")).length;
      assert.equal(await drawn(), 0, "the drawing part is not loaded before it is wanted");
      assert.deepEqual(await codeOnScreen(page, `${engine}-plan`), [link]);
      assert.equal(await drawn(), 1);
      await copyLink(page); // a patch of the page
      await page.until(() => document.querySelector("#link-code [data-code] svg") !== null);
      assert.match(await page.evaluate(() => document.querySelector("#link-code svg").getAttribute("aria-label")), /QR code/);
    }));

  test(`${engine}: a locked link opens with its passphrase alone, and says nothing before`, () =>
    withPage(engine, phone, (nora) => withPage(engine, phone, async (luis) => {
      const plain = await linkPage(nora);
      const screen = await said(nora, "header");
      const phrase = "seven purple Äpfel";
      await go(nora, "/link/lock");
      await nora.fill("#field-phrase", "short");
      await nora.click(".submit button");
      await nora.until(() => document.querySelector("#problem-phrase") !== null);
      await nora.fill("#field-phrase", phrase);
      await nora.click(".submit button");
      await titled(nora, "The link is locked");
      const locked = await address(nora);
      assert.equal(await copyLink(nora), locked);
      assert.deepEqual(unlocked(fragment(locked), phrase), fragment(plain), "another program opens it");
      assert.deepEqual(await codeOnScreen(nora, `${engine}-locked`), [locked]);
      assert.ok(!(await stored(nora)).includes(phrase), "the phrase is kept nowhere");
      assert.equal(await nora.evaluate(() => location.href), plain, "the plan on this device stays open");

      await open(luis, locked);
      assert.equal(await title(luis), "This link is locked");
      const seen = (await luis.evaluate(() => document.documentElement.outerHTML)) + (await stored(luis));
      for (const word of ["Rosa", "Alder Ferry", "December"]) assert.ok(!seen.includes(word), `${word} can be read`);
      for (const wrong of ["seven purple apfel", `${phrase}s`]) {
        await luis.fill("#field-phrase", wrong);
        await luis.click(".submit button");
        await luis.until(() => document.querySelector("#problem-phrase")?.textContent.includes("That is not the passphrase"));
        assert.equal(await luis.evaluate(() => document.activeElement.id), "field-phrase");
        assert.equal(await luis.evaluate(() => location.href), locked);
      }
      await luis.fill("#field-phrase", ` ${phrase} `);
      await luis.press("Enter");
      await luis.until(() => document.querySelector("#next") !== null);
      assert.equal(await luis.evaluate(() => location.href), plain);
      assert.match(screen, new RegExp(await title(luis)));
      assert.ok(!(await stored(luis)).includes(phrase), "the phrase is kept nowhere");
    })));

  test(`${engine}: one helper's part is theirs alone, and to read`, () =>
    withPage(engine, phone, (nora) => withPage(engine, phone, async (luis) => {
      const whole = await linkPage(nora);
      await go(nora, "/link/part");
      await nora.evaluate(() => [...document.querySelectorAll("button[name=part]")].find((b) => b.textContent === "Luis").click());
      await nora.until(() => document.querySelector("#hand-over") !== null);
      const link = await address(nora);
      assert.notEqual(link, whole);
      assert.equal(await copyLink(nora), link);

      await open(luis, link);
      await luis.until(() => document.querySelector("#notice-part") !== null);
      const screen = await said(luis);
      assert.match(screen, /Luis/);
      assert.doesNotMatch(screen, /\bDana\b/, "no other helper's name");
      const forms = await luis.evaluate(() => [...document.querySelectorAll("#app form")].map((form) => form.getAttribute("action")));
      assert.deepEqual(forms.filter((action) => !["/clock", "/language"].includes(action)), [], "nothing to change");
      assert.ok(!(await stored(luis)).includes("newel.plan."), "it is no copy of the plan");
      await go(luis, "/calendar");
      assert.ok(!(await stored(luis)).includes("newel.plan."));
    })));

  test(`${engine}: started afresh, the plan has another number, and the old link opens the old one`, () =>
    withPage(engine, phone, async (page) => {
      await open(page, `${site}#start`);
      await send(page, "/start", { surgery: await dayFromNow(page, 9), arrival: "05:30", patient: "Rosa" });
      const before = await page.evaluate(() => location.href);
      await go(page, "/link");
      await go(page, "/link/afresh");
      await page.click("#afresh-sure");
      await page.until(() => document.querySelector("#notice-fresh") !== null);
      const fresh = await address(page);
      assert.notEqual(number(fresh), number(before));
      assert.equal(day(fresh), day(before));
      await open(page, before);
      await page.until(() => document.querySelector("#notice-earlier") !== null);
      assert.equal(await page.evaluate(() => location.href), before);
      await open(page, site);
      const kept = await page.evaluate(() => [...document.querySelectorAll(".kept a.open")].map((a) => a.getAttribute("href")));
      assert.deepEqual(kept.map(number).sort(), [number(before), number(fresh)].sort());
    }));

  test(`${engine}: a whole message is pasted, and the plan in it opens`, () =>
    withPage(engine, phone, (nora) => withPage(engine, phone, async (luis) => {
      const link = await linkPage(nora);
      await open(luis, site);
      await paste(luis, "Where is it?");
      await luis.until(() => document.querySelector("#problem-paste") !== null);
      assert.equal(await luis.evaluate(() => document.activeElement.id), "field-paste");
      const wrapped = `${link.slice(0, -40)}\r\n> ${link.slice(-40)}`.replace("> ", "");
      await paste(luis, `Hi Luis,\nhere it is (call me: 555-0142):\n<${wrapped}>.\nThanks, Dana`);
      await luis.until(() => document.querySelector("#next") !== null);
      assert.equal(await luis.evaluate(() => location.href), link);
    })));

  test(`${engine}: a link that was cut off says so, and opens nothing`, () =>
    withPage(engine, phone, async (page) => {
      const link = await linkPage(page);
      const kept = () => page.evaluate(() => Object.entries(localStorage).sort());
      const before = await kept();
      for (const cut of [1, 4, 30]) {
        await open(page, link.slice(0, -cut));
        assert.equal(await title(page), "This link was cut off in sending");
        assert.ok(await page.evaluate(() => document.querySelector("#next") === null));
        assert.ok(await page.evaluate(() => document.querySelector("#paste") !== null));
      }
      assert.deepEqual(await kept(), before, "nothing on the device was changed");
      await page.click("#here a");
      await page.until(() => document.querySelector("#next") !== null);
      assert.equal(fragment(await page.evaluate(() => location.href)), fragment(link));
    }));

  test(`${engine}: a link of a later page shows its day and nothing else`, () =>
    withPage(engine, phone, async (page) => {
      // Both readers of the head are checked by this file; far ahead, since not every engine's
      // clock can be held still.
      const text = readFileSync(join(top, "testdata/link/heads/newer-far.txt"), "utf8");
      await open(page, `${site}#${/^fragment: (.*)$/m.exec(text)[1]}`);
      assert.equal(await title(page), "Load the page again to open this link");
      assert.match(await said(page, "#newer-day"), /Friday, December 31, 2100, be there at (12 noon|12:00)/);
      assert.ok(!(await stored(page)).includes("newel.plan."));
    }));
}

/** The plan's number in a link, where core/link/head.go says that it stands. */
function number(link) {
  return head(link) >> 34n & 0xffffffffn;
}

/** The day of surgery in a link. */
function day(link) {
  return head(link) >> 18n & 0xffffn;
}

function head(link) {
  return BigInt(`0x${Buffer.from(fragment(link), "base64url").subarray(0, 9).toString("hex")}`);
}

/** Opens a locked link by Node's own cipher; web/lock.ts says what it consists of. */
function unlocked(locked, phrase) {
  const bytes = Buffer.from(locked, "base64url");
  const front = bytes.subarray(0, 18);
  const key = pbkdf2Sync(phrase.normalize("NFKC"), front.subarray(2), front[1] * 100_000, 32, "sha256");
  const cipher = createDecipheriv("aes-256-gcm", key, front.subarray(2, 14));
  cipher.setAAD(front);
  cipher.setAuthTag(bytes.subarray(-19, -3));
  return Buffer.concat([cipher.update(bytes.subarray(18, -19)), cipher.final()]).toString("base64url");
}

test("chromium: the code is read in the dark as well", () =>
  withPage("chromium", { ...phone, dark: true }, async (page) => {
    const link = await linkPage(page);
    assert.deepEqual(await codeOnScreen(page, "dark"), [link]);
  }));

for (const engine of engines)
  test(`${engine}: where the part that draws cannot be had, a sentence stands in place of the code`, async () => {
    const host = await startHost(site);
    try {
      host.faults.set("worker.js", "damaged"); // or the part would be kept within seconds, and be had
      await withPage(engine, phone, async (page) => {
        await open(page, `${host.url}#demo`);
        await go(page, "/link");
        await host.stop();
        await page.click("#link-code summary");
        await page.until(() => document.querySelector("[data-no-code]").getClientRects().length > 0);
        assert.ok(await page.evaluate(() => document.querySelector("[data-code] svg") === null));
      });
    } finally {
      await host.stop().catch(() => undefined); // stopped by the test
    }
  });

const screens = {
  "the page for sending": linkPage,
  "the page for one helper": async (page) => {
    await linkPage(page);
    await go(page, "/link/part");
    await page.evaluate(() => document.querySelector("button[name=part]").click());
    await page.until(() => document.querySelector("#hand-over") !== null);
  },
  "one helper's part": async (page) => {
    await screens["the page for one helper"](page);
    await open(page, await address(page));
  },
  "the page for locking": async (page) => {
    await linkPage(page);
    await go(page, "/link/lock");
    await page.click(".submit button");
    await page.until(() => document.querySelector("#problem-phrase") !== null);
  },
  "a link that was locked": async (page) => {
    await screens["the page for locking"](page);
    await page.fill("#field-phrase", "four warm loaves");
    await page.click(".submit button");
    await titled(page, "The link is locked");
  },
  "a locked link": async (page) => {
    await screens["a link that was locked"](page);
    await open(page, await address(page));
    await page.fill("#field-phrase", "four cold loaves");
    await page.click(".submit button");
    await page.until(() => document.querySelector("#problem-phrase") !== null);
  },
  "starting afresh": async (page) => {
    await open(page, `${site}#start`);
    await send(page, "/start", { surgery: await dayFromNow(page, 9) });
    await go(page, "/link");
    await go(page, "/link/afresh");
  },
  "a pasted text without a link": async (page) => {
    await open(page, site);
    await paste(page, "Where is it?");
    await page.until(() => document.querySelector("#problem-paste") !== null);
  },
};

for (const [name, show] of Object.entries(screens))
  test(`chromium: ${name} has no accessibility finding and fits narrow and wide screens`, () =>
    withPage("chromium", phone, async (page) => {
      await show(page);
      await looksRight(page);
    }));
