// Two people, two browsers with a profile of their own each, one plan. They change it apart
// from each other, send each other the link both ways, settle what they disagree about,
// and end with the same plan on both screens.

import assert from "node:assert/strict";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { setTimeout as pause } from "node:timers/promises";
import { engines, withPage } from "../engines.mjs";
import { at, copyLink, dayFromNow, go, open, paste, phone, said as shown, send } from "../family.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const pictures = mkdtempSync(join(tmpdir(), "newel-screens-"));
after(() => rmSync(pictures, { recursive: true }));

/** What stands in the address, as somebody copies it out of there. */
const copied = (page) => page.evaluate(() => location.href);

/** Puts an address into the address bar, and waits until it was taken in. */
async function pasted(page, address) {
  if ((await copied(page)) === address) return; // it stands there already
  const was = await page.evaluate(() => document.querySelector("#app").innerHTML);
  await page.goto(address);
  await page.until((html, fragment) => location.hash !== fragment || document.querySelector("#app").innerHTML !== html, was, new URL(address).hash);
  await at(page, "/");
}

/** One copies the link out of the address bar, the other puts it into theirs. */
const byAddressBar = async (from, to) => pasted(to, await copied(from));

/** One copies the link on the page for sending it, the other pastes a message with it. */
async function byPasteBox(from, to) {
  await go(from, "/link");
  const link = await copyLink(from);
  assert.equal(link, await copied(from));
  await go(from, "/");
  await open(to, site);
  await paste(to, `Here is mine:\n${link}\nCall me on 555-0142 if it does not open.`);
  await to.until(() => document.querySelector("#days") !== null);
}

/** Reads what is new, and gives what it was. */
async function readNews(page) {
  const news = await shown(page, "#notice-moved");
  if (news !== "") await page.evaluate(() => document.querySelector('form[action="/read"]').requestSubmit());
  await page.until(() => document.querySelector("#notice-moved") === null);
  return news;
}

async function tick(page, title) {
  await page.evaluate((t) => {
    const box = [...document.querySelectorAll("form.tick")].find((form) => form.textContent.includes(t)).querySelector("input[type=checkbox]");
    box.checked = true;
    box.form.requestSubmit();
  }, title);
  await page.until((t) => document.querySelector("#say").textContent.includes(t), title);
}

const isDone = (page, title) =>
  page.evaluate((t) => [...document.querySelectorAll("form.tick")].find((form) => form.textContent.includes(t)).querySelector("input[type=checkbox]").checked, title);

async function says(page, name) {
  // Whose phone it is can be said once somebody asks, or from its line at the foot.
  await page.evaluate(() => {
    const asked = document.querySelector('form[action="/me"]');
    if (asked) asked.requestSubmit();
    else document.querySelector('[data-path="/me"]').click();
  });
  await at(page, "/me");
  await send(page, "/me", { who: "other", name });
}

/** The plan as it stands on the screen, without what is about this phone. */
const screen = (page) =>
  page.evaluate(() => {
    const copy = document.querySelector("#app").cloneNode(true);
    for (const own of copy.querySelectorAll("#whose, #mine, .me")) own.remove();
    for (const shell of copy.querySelectorAll("[tabindex]")) shell.removeAttribute("tabindex"); // where the focus was put
    for (const fold of copy.querySelectorAll("details")) fold.removeAttribute("open");
    for (const element of copy.querySelectorAll("*")) { // patching does not order attributes
      const attributes = [...element.attributes].map(({ name, value }) => [name, value]).sort();
      for (const [name] of attributes) element.removeAttribute(name);
      for (const [name, value] of attributes) element.setAttribute(name, value);
    }
    return copy.innerHTML.split("\n").map((line) => line.replace(/\s+/g, " ").trim()).filter((line) => line !== "");
  });

/** How it looks, without what is about this phone. */
async function picture(page, name) {
  await page.evaluate(() => {
    for (const own of document.querySelectorAll("#whose, #mine, .me")) own.remove();
    document.activeElement?.blur();
    for (const fold of document.querySelectorAll("details")) fold.open = false;
    scrollTo(0, 0);
  });
  const file = join(pictures, name);
  await page.screenshot(file);
  return readFileSync(file);
}

/** A plan on the first phone, and its link opened on the second. */
async function share(dana, luis) {
  await dana.goto(`${site}#start`);
  await dana.until(() => document.querySelector(".facts-form") !== null);
  await send(dana, "/start", { surgery: await dayFromNow(dana, 9), arrival: "05:30", drive: "40", parking: "15" });
  await luis.goto(await copied(dana));
  await luis.until(() => document.querySelector("#next") !== null);
}

/** Whether two screens look alike, dot for dot, once both have been painted. */
async function lookAlike(one, other) {
  for (let look = 0; look < 20; look++) {
    if ((await picture(one, "one.png")).equals(await picture(other, "other.png"))) return true;
    await pause(200);
  }
  return false;
}

const drives = /Luis and you both took|You and Luis both took|Dana and you both took|You and Dana both took/;

for (const engine of engines)
  test(`${engine}: two phones change one plan apart from each other and end with the same screen`, () =>
    withPage(engine, phone, (dana) => withPage(engine, phone, async (luis) => {
      await share(dana, luis);

      // Apart from each other: each says who they are by taking the same drive, and does
      // something that the other does not.
      await go(dana, "/who/drive-there");
      await send(dana, "/who/drive-there", { who: "Dana" });
      await says(dana, "Dana");
      await tick(dana, "Clean the house");
      await go(luis, "/who/drive-there");
      await send(luis, "/who/drive-there", { who: "Luis" });
      await says(luis, "Luis");
      const stay = await luis.evaluate(() => document.querySelector('[data-path^="/who/stay-with"]').dataset.path);
      await go(luis, stay);
      await send(luis, stay, { who: "Luis" });

      // Dana's link to Luis: nothing of his is lost, hers is there, and both are asked about.
      await byAddressBar(dana, luis);
      assert.equal(await isDone(luis, "Clean the house"), true);
      assert.match(await shown(luis, "#notice-question-1"), drives);
      assert.match(await shown(luis, "#notice-moved"), /Dana/, "what Dana changed has her name");

      // Meanwhile she goes on. Then his link to her.
      await tick(dana, "Wash the bed linen");
      await byPasteBox(luis, dana);
      assert.match(await shown(dana, "#notice-question-1"), drives);
      assert.equal(await isDone(dana, "Wash the bed linen"), true);
      assert.match(await readNews(dana), /Luis/);

      // She settles it; he sees that it is settled, and how.
      await dana.evaluate(() => [...document.querySelectorAll('form[action="/settle"]')]
        .find((form) => form.textContent.includes("Luis")).requestSubmit());
      await dana.until(() => document.querySelector("#notice-question-1") === null);
      await byAddressBar(dana, luis);
      assert.equal(await shown(luis, "#notice-question-1"), "");
      assert.equal(await isDone(luis, "Wash the bed linen"), true);
      await readNews(luis);

      // And once more round, until nobody learns anything new.
      await byPasteBox(luis, dana);
      await byPasteBox(dana, luis);
      await readNews(dana);
      assert.equal(await copied(luis), await copied(dana), "one plan, one link");
      assert.deepEqual(await screen(luis), await screen(dana), "and the same screen");
      for (const page of [dana, luis]) assert.match(await shown(page, "#days"), /Luis/);
      assert.match(await shown(dana, "#whose"), /Dana/);
      assert.match(await shown(luis, "#whose"), /Luis/);
      // WebKit smooths the edges of the same letters anew each time.
      if (engine !== "webkit") assert.ok(await lookAlike(dana, luis), "dot for dot");
    })));
