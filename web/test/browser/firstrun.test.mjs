// The first run of somebody who knows nothing: from a link in a message to "I know what I do
// tomorrow" with one tap, in less than thirty seconds. Each screen is walked as it is seen, with
// what it asks of the person: the words to read down to the answer, and the tap.
//
// Times of people: adults read 238 words of English a minute in silence (M. Brysbaert, "How many
// words do we read per minute?", Journal of Memory and Language 109, 2019; from memory). Whoever
// is tired or seventy gets two thirds of that here, which is our own choice. What has been read
// is not read again: the head of the page is the same on both screens. To think, to point
// and to tap are 1.35, 1.1 and 0.2 s (Card, Moran and Newell, The Psychology of Human-Computer
// Interaction, 1983; from memory). The core's way to the phone is measured by the bench, not here.

import assert from "node:assert/strict";
import test from "node:test";
import { engines, withPage } from "../engines.mjs";
import { at, open, phone } from "../family.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const wordsASecond = (238 * 2) / 3 / 60;
const tap = 1.35 + 1.1 + 0.2;

/**
 * The words that a person reads on the screen as it stands, from its top to the end of an
 * element; without the head of the page where that has been read.
 */
const wordsTo = (page, selector, headRead = false) => page.evaluate((s, read) => {
  const end = document.querySelector(s).getBoundingClientRect().bottom;
  const fixed = document.querySelector(".bar");
  let words = 0;
  const walker = document.createTreeWalker(document.querySelector("#app"), NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (fixed?.contains(node) || (read && node.parentElement.closest(".top")) || node.parentElement.closest(".unseen") || !node.parentElement.checkVisibility()) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const { top, bottom } = range.getBoundingClientRect();
    if (bottom > 0 && top < end) words += node.data.split(/\s+/).filter((w) => w !== "").length;
  }
  return words;
}, selector, headRead);

/** Whether all of an element is on the screen, above the bar at the foot, without scrolling. */
const inView = (page, selector) => page.evaluate((s) => {
  const { top, bottom } = document.querySelector(s).getBoundingClientRect();
  return top >= 0 && bottom <= document.querySelector(".bar").getBoundingClientRect().top;
}, selector);

/** The link of the example family, as it would come in a message to another phone. */
async function familyLink(engine) {
  let link = "";
  await withPage(engine, phone, async (page) => {
    await page.goto(`${site}#demo`);
    await at(page, "/");
    link = await page.evaluate(() => location.href);
  });
  return link;
}

for (const engine of engines) {
  test(`${engine}: from the link to what I do tomorrow, with one tap`, async (t) => {
    const link = await familyLink(engine);
    await withPage(engine, phone, async (page) => {
      // The first screen asks one thing: who are you?
      await open(page, link);
      assert.ok(await inView(page, "#notice-you"), "the question is on the first screen");
      const first = (await wordsTo(page, "#notice-you")) / wordsASecond + tap;
      await page.evaluate(() => [...document.querySelectorAll("#notice-you button")].find((b) => b.textContent === "Luis").click());
      await page.until(() => document.querySelector("#mine") !== null);
      // The second asks nothing: it says what there is tomorrow, and then.
      const answer = await page.text("#mine .free");
      assert.equal(answer, "You are not down for anything today or tomorrow.");
      assert.ok(await inView(page, "#mine .free"), "the answer is on the screen, without scrolling");
      const second = (await wordsTo(page, "#mine .free", true)) / wordsASecond;
      t.diagnostic(`first screen ${first.toFixed(1)} s with its tap, second ${second.toFixed(1)} s`);
      assert.ok(first + second < 30, `${(first + second).toFixed(1)} s`);
    });
  });

  // Whoever has the drive reads the same off the rail of what is next.
  test(`${engine}: whoever drives sees tomorrow on the same rail as the drive`, async (t) => {
    const link = await familyLink(engine);
    await withPage(engine, phone, async (page) => {
      await open(page, link);
      const first = (await wordsTo(page, "#notice-you")) / wordsASecond + tap;
      await page.evaluate(() => [...document.querySelectorAll("#notice-you button")].find((b) => b.textContent === "Dana").click());
      await page.until(() => document.querySelector("#notice-you") === null);
      const tomorrow = await page.evaluate(() => 1 + [...document.querySelectorAll("#next > *")].findIndex((e) => e.querySelector("h3")?.textContent === "Tomorrow"));
      assert.ok(tomorrow > 0, "there is a block for tomorrow");
      assert.ok(await inView(page, `#next > :nth-child(${tomorrow})`));
      assert.ok(await inView(page, "#next .lead-time"), "the time to leave is on the screen, without scrolling");
      const second = (await wordsTo(page, `#next > :nth-child(${tomorrow})`, true)) / wordsASecond;
      t.diagnostic(`first screen ${first.toFixed(1)} s with its tap, second ${second.toFixed(1)} s`);
      assert.ok(first + second < 30, `${(first + second).toFixed(1)} s`);
    });
  });

  test(`${engine}: the letters grow at a tap, to twice, and stay so`, () =>
    withPage(engine, phone, async (page) => {
      await page.goto(`${site}#demo`);
      await at(page, "/");
      const size = () => page.evaluate(() => Number.parseFloat(getComputedStyle(document.querySelector("#next p")).fontSize));
      assert.equal(await size(), 18);
      for (const [want, words] of [[27, "Bigger type"], [36, "Normal type"]]) {
        await page.click("#type-size");
        assert.equal(await size(), want);
        assert.equal((await page.text("#type-size")).trim(), words);
      }
      await page.until(() => document.querySelector("#say").textContent === "The type is at its largest.");
      await page.reload();
      await at(page, "/");
      assert.equal(await size(), 36);
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= 360), "nothing to the side");
      await page.click("#type-size");
      assert.equal(await size(), 18);
      await page.reload();
      await at(page, "/");
      assert.equal(await size(), 18);
    }));
}
