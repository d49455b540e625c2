// The desk, as a nurse navigator meets it who has never seen it: with the keyboard alone, from
// the start of the page to links for a whole class, and a surgery that moves. The build serves a
// fresh bundle and names it in NEWEL_SITE.

import assert from "node:assert/strict";
import { test } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { at, dayFromNow, open, paste, phone, said } from "../family.mjs";
import { looksRight } from "../looks.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const computer = { ...phone, width: 1280, height: 800 };

/** Presses Tab until the focus is on what a selector names. */
async function tabTo(page, selector) {
  for (let n = 0; n < 150; n++) {
    if (await page.evaluate((s) => document.activeElement?.matches(s) ?? false, selector)) return n;
    await page.press("Tab");
  }
  assert.fail(`${selector} is not reached with Tab`);
}

const focused = (page, id) => page.until((i) => document.activeElement?.id === i, id);

async function enter(page, selector, path) {
  await tabTo(page, selector);
  await page.press("Enter");
  if (path) await at(page, path);
}

/** The desk with the example hospital's settings, reached with the keyboard from the front. */
async function exampleDesk(page) {
  await page.goto(site);
  await page.until(() => document.querySelector(".to-desk a") !== null && document.querySelector("#waiting") === null);
  await enter(page, ".to-desk a", "/desk");
  await focused(page, "title"); // in front of the notice that no hospital is put in
  await enter(page, "#notice-common a.second", "/desk");
  await page.until(() => document.querySelector(".whose") !== null);
  await focused(page, "field-surgery");
}

const stored = (page) => page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("newel.")));

/** Whether the page would have the browser ask (HTML Living Standard 7.4.7, from memory). */
const asksBeforeLeaving = (page) => page.evaluate(() => !window.dispatchEvent(new Event("beforeunload", { cancelable: true })));

/** A table of so many patients, with a head. */
async function table(page, n) {
  const days = [];
  for (let i = 0; i < 28; i++) days.push(await dayFromNow(page, 14 + i));
  return "Label\tDate\tArrival\tJoint\tStay\n"
    + Array.from({ length: n }, (_, i) => `P${i}\t${days[i % 28]}\t05:30\t${i % 2 ? "hip" : "knee"}\tone night`).join("\n");
}

/** Puts a text into the box for tables, as pasting does. */
const pasteTable = (page, text) =>
  page.evaluate((t) => {
    const box = document.querySelector("#field-text");
    box.focus();
    box.value = t;
    box.dispatchEvent(new Event("input", { bubbles: true }));
  }, text);

const madeLink = (page) => page.evaluate(() => document.querySelector("#address").value);

test("chromium: from the front of the page to a message, with the keyboard alone", { skip: !engines.includes("chromium") }, () =>
  withPage("chromium", computer, async (page) => {
    await exampleDesk(page);
    // The keys that core/app/desk_test.go counts: no stop stands between the date and the arrival.
    await page.type("12082026");
    await page.press("Tab");
    await focused(page, "field-arrival");
    await page.type("0530AM");
    await page.press("Enter");
    await focused(page, "made");
    assert.match(await said(page, "#made-said"), /Knee replacement, Tuesday, December 8: 14 days to go\. Arrival at 5:30.AM/u);
    await looksRight(page);
    await page.setSize(1280, 800);
    await enter(page, "#made-copy-text");
    await page.until(() => document.querySelector("[data-copied]").getClientRects().length > 0);
    assert.equal(await page.clipboard(), await said(page, "#made-message"));
    await enter(page, "#made-next");
    await focused(page, "field-surgery");
    assert.equal(await said(page, "#session-title"), "One link made on this page");
    // The page has it, through another screen and another language, and asks before it is left.
    await enter(page, '[data-path="/desk/moved"]', "/desk/moved");
    await page.back();
    await at(page, "/desk");
    await enter(page, "#language-es");
    await page.until(() => document.documentElement.lang === "es");
    assert.equal(await said(page, "#session-title"), "Un enlace hecho en esta página");
    await enter(page, "#language-en");
    await page.until(() => document.documentElement.lang === "en");
    assert.deepEqual(await stored(page), ["newel.language"], "nothing of a patient");
    assert.ok(await asksBeforeLeaving(page));
    await enter(page, '[value="clear"]');
    await page.until(() => document.querySelector("#session-title") === null);
    assert.ok(!(await asksBeforeLeaving(page)));
  }));

test("chromium: where the browser does not copy, that is said and the text is marked", { skip: !engines.includes("chromium") }, () =>
  withPage("chromium", computer, async (page) => {
    await exampleDesk(page);
    await page.type("12082026");
    await page.press("Enter");
    await focused(page, "made");
    await page.evaluate(() => Object.defineProperty(navigator, "clipboard", { value: { writeText: () => Promise.reject(new Error("no")) } }));
    await page.click("#made-copy-text");
    await focused(page, "by-hand");
    await page.until(() => document.querySelector("#say").textContent.startsWith("The browser did not copy"));
    const marked = await page.evaluate(() => { const t = document.querySelector("#by-hand"); return t.value.slice(t.selectionStart, t.selectionEnd); });
    assert.equal(marked, await said(page, "#made-message"));
  }));

for (const engine of engines) {
  test(`${engine}: forty rows, two of them wrong and put right`, () =>
    withPage(engine, computer, async (page) => {
      await exampleDesk(page);
      await page.evaluate(() => document.querySelector("#title").focus());
      await enter(page, '[data-path="/desk/rows"]', "/desk/rows");
      await focused(page, "field-text");
      if (engine === "chromium") await looksRight(page);
      await page.setSize(1280, 800);
      const text = (await table(page, 40)).split("\n");
      text[5] = text[5].replace(/\d{4}-\d\d-\d\d/, "2026-02-30");
      text[10] = text[10].replace("05:30", "half past");
      await pasteTable(page, text.join("\n"));
      await enter(page, "#table-check");
      await focused(page, "outcome");
      assert.equal(await said(page, "#outcome-title"), "38 links are ready. 2 rows need you: they have no link.");
      if (engine === "chromium") await looksRight(page);
      await page.setSize(1280, 800);
      await page.fill("#cell-6-1", await dayFromNow(page, 20));
      await page.fill("#cell-11-2", "5:45 am");
      await page.evaluate(() => document.querySelector("#cell-11-2").focus());
      await page.press("Enter"); // checks again, and does not copy what is wrong
      await page.until(() => document.querySelector("#outcome-title")?.textContent.startsWith("40 links"));
      await tabTo(page, "#rows-copy");
      await page.press("Enter");
      await page.until(() => document.querySelector("[data-copied]").getClientRects().length > 0);
      assert.equal(await said(page, "[data-copied]"), "The table is copied. Paste it into your spreadsheet.");
      if (engine === "chromium") {
        const back = await page.clipboard();
        assert.equal(back.split("\n").length, 41);
        assert.equal(back.match(/#[\w-]+/g).length, 80, "a link and a message for each");
      }
      await enter(page, "#copy-9");
      await page.until(() => document.querySelector("[data-copied]").getClientRects().length > 0);
      await page.until(() => /Paste it into a message/.test(document.querySelector("[data-copied]").textContent));
      // From the cards the way back leads to the rows, with the same links.
      const first = await page.evaluate(() => document.querySelector('#rows-form [name="made"]').value);
      // From the head: on the way round the end of the page Firefox goes through its own bars, and Enter is theirs.
      await page.evaluate(() => document.querySelector("#title").focus());
      await enter(page, "#rows-cards", "/desk/cards");
      await page.back();
      await at(page, "/desk/rows");
      assert.equal(await page.evaluate(() => document.querySelector('#rows-form [name="made"]').value), first);
      await enter(page, "#rows-edit");
      await focused(page, "field-text");
      assert.deepEqual(await stored(page), []);
      await page.back();
      await at(page, "/desk");
    }));

  test(`${engine}: a surgery moves, and the family's copy shows it`, () =>
    withPage(engine, computer, async (page) => {
      await exampleDesk(page);
      const old = await dayFromNow(page, 14);
      await page.evaluate((day) => { document.querySelector("#field-surgery").value = day; }, old);
      await page.press("Enter");
      await focused(page, "made");
      const first = await madeLink(page);
      await withPage(engine, phone, async (family) => {
        await open(family, first);
        await page.evaluate(() => document.querySelector("#title").focus());
        await enter(page, '[data-path="/desk/moved"]', "/desk/moved");
        await focused(page, "field-paste");
        if (engine === "chromium") await looksRight(page);
        await page.setSize(1280, 800);
        await paste(page, `Your plan: ${first}`);
        await focused(page, "old");
        if (engine === "chromium") await looksRight(page);
        await page.setSize(1280, 800);
        const next = await dayFromNow(page, 21);
        await page.evaluate((day) => {
          document.querySelector("#field-surgery").value = day;
          document.querySelector("#field-surgery").focus();
        }, next);
        await page.press("Enter");
        await focused(page, "made");
        assert.match(await said(page, "#made"), /things move/);
        const moved = await madeLink(page);
        await open(family, moved);
        const named = new Intl.DateTimeFormat("en-US", { month: "long", day: "numeric", timeZone: "UTC" }).format(new Date(next));
        assert.ok((await said(family, "#notice-moved")).includes(named), named);
        await open(family, first);
        assert.equal(await family.evaluate(() => location.hash), new URL(moved).hash, "the old message brings nothing back");
      });
      assert.deepEqual(await stored(page), [], "the desk keeps no family's plan");
    }));
}

test("chromium: a thousand rows say how far they are, and going elsewhere ends it", { skip: !engines.includes("chromium") }, (t) =>
  withPage("chromium", computer, async (page) => {
    await exampleDesk(page);
    await page.click('[data-path="/desk/rows"]');
    await focused(page, "field-text");
    await pasteTable(page, await table(page, 1000));
    const seen = await page.evaluate(async () => {
      const steps = [];
      const from = performance.now();
      new MutationObserver(() => {
        const step = document.querySelector("#progress-text")?.textContent;
        if (step && steps.at(-1) !== step) steps.push(step);
      }).observe(document.querySelector("#app"), { subtree: true, childList: true, characterData: true });
      document.querySelector("#table-check").click();
      while (!document.querySelector("#outcome")) await new Promise((done) => setTimeout(done, 2));
      return { steps, ms: Math.round(performance.now() - from), bytes: document.querySelector("#app").innerHTML.length };
    });
    t.diagnostic(`1,000 rows: ${seen.ms} ms, ${seen.bytes} characters of HTML`);
    assert.deepEqual(seen.steps, ["200 of 1000", "400 of 1000", "600 of 1000", "800 of 1000"]);
    await focused(page, "outcome");
    assert.equal(await said(page, "#outcome-title"), "1000 links are ready.");

    await page.click("#rows-edit");
    await focused(page, "field-text");
    await page.evaluate(() => {
      document.querySelector("#table-check").click();
      document.querySelector('[data-path="/desk/moved"]').click(); // before the next step was asked for
    });
    await at(page, "/desk/moved");
    await new Promise((done) => setTimeout(done, 500));
    assert.equal(await page.evaluate(() => history.state.path), "/desk/moved");
    assert.ok(await page.evaluate(() => document.querySelector("#field-paste") !== null));
  }));

test("chromium: ten megabytes pasted by mistake are refused in words, and all else stays", { skip: !engines.includes("chromium") }, () =>
  withPage("chromium", computer, async (page) => {
    await exampleDesk(page);
    await page.click('[data-path="/desk/rows"]');
    await focused(page, "field-text");
    // In long lines: laying out a million short ones takes Chromium two minutes, whoever shows them.
    const pasteMuch = (size) => page.evaluate((n) => { document.querySelector("#field-text").value = `Date,Note\n${`2026-12-08,${"x".repeat(500)}\n`.repeat(n / 512)}`; }, size);
    await pasteMuch(10 << 20);
    await page.evaluate(() => document.querySelector("#table-check").click());
    await page.until(() => document.querySelector('[data-why="large"]').getClientRects().length > 0);
    assert.match(await said(page, '[data-why="large"]'), /Everything stands where it was/);
    assert.ok(await page.evaluate(() => document.querySelector("#field-text").value.length > 9 << 20));
    await pasteMuch(5 << 19); // more than a table may have, less than a request
    await page.evaluate(() => document.querySelector("#table-check").click());
    await focused(page, "problems");
    assert.equal(await page.evaluate(() => document.querySelector('[data-why="large"]').getClientRects().length), 0, "the sentence goes when something fits");
    assert.ok(await page.evaluate(() => document.querySelector("#field-text").value.length > 2 << 20));
  }));

test("chromium: an address of the desk that was cut off leads on", { skip: !engines.includes("chromium") }, () =>
  withPage("chromium", phone, async (page) => {
    await open(page, `${site}#desk.AAAA`);
    assert.match(await said(page, "#title"), /settings in this address cannot be read/);
    await looksRight(page);
    await enter(page, 'main a[data-path="/desk"]', "/desk");
    await focused(page, "title");
    await looksRight(page);
  }));
