// The page in more languages than one: the switch on every screen, the static page before the
// core has come and without scripts, the main job in Spanish, and a pseudo-language (longer by
// 40 %, from right to left; build/pseudo) on every screen that links lead to. Whether each of
// them holds together in it, the catalogue's test looks at.

import assert from "node:assert/strict";
import test, { after, before } from "node:test";
import { setTimeout as pause } from "node:timers/promises";
import { engines, withPage } from "../engines.mjs";
import { at, dayFromNow, go, phone, said } from "../family.mjs";
import { holdBack } from "../held.mjs";
import { everyScreen, plainWords } from "../layout.mjs";
import { looksRight } from "../looks.mjs";

const site = process.env.NEWEL_SITE;
const pseudo = process.env.NEWEL_PSEUDO;
assert.ok(site && pseudo, "NEWEL_SITE and NEWEL_PSEUDO are not set: run this through `go run ./build test --only browser`");

const spanish = { ...phone, language: "es-US" };
let held;
before(async () => { held = await holdBack(site); });
after(() => held.close());

const language = (page) => page.evaluate(() => document.documentElement.lang);
const speaks = (page, tag) => page.until((l) => document.documentElement.lang === l && document.querySelector("#trouble").lang === l, tag);

async function demo(page, address = site) {
  await page.goto("about:blank");
  await page.goto(`${address}#demo`);
  await at(page, "/");
}

for (const engine of engines) {
  test(`${engine}: another language is a tap away, on the same screen, and stays`, () =>
    withPage(engine, phone, async (page) => {
      await demo(page);
      await go(page, "/link");
      const address = await page.evaluate(() => location.href);
      assert.equal(await page.text("#language-es"), "Español");
      await page.click("#language-es");
      await speaks(page, "es");
      assert.deepEqual(await page.evaluate(() => [history.state.path, location.href, document.activeElement.id, document.documentElement.dir]),
        ["/link", address, "language-en", "ltr"]);
      assert.equal(await page.evaluate(() => document.querySelector(".skip").textContent.trim().length > 0 && document.querySelector(".skip").lang), "es");
      // What the core does not say is in the same language as what it says.
      const html = await (await fetch(new URL("es.html", site))).text();
      const sentence = await page.evaluate(() => document.querySelector('[data-why="core"]').textContent);
      assert.ok(html.includes(sentence), sentence);
      await page.reload();
      await speaks(page, "es");
      await at(page, "/link");
      await page.press("Tab"); // the link that skips, then the switch: in reach of a keyboard
      await page.evaluate(() => document.querySelector("#language-en").focus());
      await page.press("Enter");
      await speaks(page, "en");
      assert.equal(await page.evaluate(() => location.href), address);
    }));
}

test("chromium: what was typed and not sent stays when the language changes", () =>
  withPage("chromium", phone, async (page) => {
    await page.goto(`${site}#start`);
    await at(page, "/start").catch(() => undefined);
    await page.until(() => document.querySelector(".facts-form") !== null);
    await page.fill("#field-patient", "Rosa");
    await page.click("#field-joint-1");
    await page.click("#language-es");
    await speaks(page, "es");
    assert.deepEqual(await page.evaluate(() => [document.querySelector("#field-patient").value, document.querySelector("#field-joint-1").checked]), ["Rosa", true]);
  }));

test("chromium: the main job is read off the screen in Spanish", () =>
  withPage("chromium", { ...spanish, now: "2026-11-24T15:00:00Z" }, async (page) => {
    await demo(page);
    assert.equal(await language(page), "es");
    if ((await said(page, ".clock button")).includes("24")) await page.click(".clock button");
    await page.until(() => document.querySelector(".clock button").value === "12");
    const screen = await page.evaluate(() => document.querySelector("#app").innerText.replace(/\s+/g, " "));
    const next = await said(page, "#next");
    assert.match(next, /04:15/, "when to leave");
    assert.match(next, /05:30/, "when to be there");
    for (let wash = 1; wash <= 5; wash++) assert.match(await said(page, `#day-${await dayFromNow(page, 4 + wash)}`), new RegExp(`\\b${wash} de 5\\b`), `wash ${wash}`);
    assert.match(await said(page, `#day-${await dayFromNow(page, 8)}`), /23:00/, "the end of food");
    assert.match(await said(page, `#day-${await dayFromNow(page, 9)}`), /03:30/, "the end of drinks");
    assert.match(await said(page, `#day-${await dayFromNow(page, 10)}`), /07:15.*08:30/, "home the morning after");
    for (const time of ["04:15", "23:00", "03:30", "08:30"]) assert.ok(screen.includes(time), `${time} is on the screen, not folded away`);
    // CLDR es: the day as Intl writes it, which is ICU's and no text of ours.
    const day = new Intl.DateTimeFormat("es-US", { weekday: "long", month: "long", day: "numeric", timeZone: "UTC" }).format(new Date("2026-12-03"));
    assert.ok((await said(page, ".when")).toLowerCase().includes(day), day);
    for (const left of ["Leave home", "Be there", "When to call", "How and why"]) assert.ok(!screen.includes(left), `English is left: ${left}`);
  }));

test("chromium: the same link is read in two languages, by two people", () =>
  withPage("chromium", phone, async (page) => {
    await demo(page);
    const address = await page.evaluate(() => location.href);
    await withPage("chromium", spanish, async (other) => {
      await other.goto(address);
      await at(other, "/");
      assert.equal(await language(other), "es");
      assert.equal(await other.evaluate(() => location.href), address);
    });
  }));

test("chromium: Spanish has no accessibility finding and fits narrow and wide screens", () =>
  withPage("chromium", spanish, async (page) => {
    await demo(page);
    await looksRight(page);
  }));

test("chromium: the static page is in the person's language before the core has come", () =>
  withPage("chromium", spanish, async (page) => {
    held.again();
    await page.goto(`${held.url}#start`);
    await speaks(page, "es");
    assert.ok(await page.evaluate(() => document.querySelector("#first-line") !== null), "the core has not come");
    assert.equal(await page.evaluate(() => document.querySelector("#waiting").hidden), false);
    assert.match(await said(page, "#signs"), /911/);
    assert.equal(await page.evaluate(() => location.hash), "#start");
    // The other way, on purpose: it stays, though the device says Spanish.
    await page.click('.languages a[hreflang="en"]');
    await speaks(page, "en");
    assert.match(await said(page, "#signs"), /Call 911 now/);
    assert.deepEqual(await page.evaluate(() => [location.hash, document.activeElement.hreflang]), ["#start", "es"]);
    held.letGo();
    await page.until(() => document.querySelector("#waiting") === null);
    assert.equal(await language(page), "en");
  }));

test("chromium: a core that never comes leaves the guide in the person's language, and the switch works", () =>
  withPage("chromium", phone, async (page) => {
    held.again();
    await page.goto("about:blank");
    await page.goto(held.url);
    await page.until(() => document.querySelector("#waiting")?.hidden === false);
    await page.click('.languages a[hreflang="es"]');
    await speaks(page, "es");
    assert.equal(await page.evaluate(() => new URL(document.baseURI).pathname), "/");
  }));

test("chromium: a page that was opened by its language's name has the folder's address from then on", () =>
  withPage("chromium", phone, async (page) => {
    await page.goto(`${site}es.html?chosen#demo`);
    await at(page, "/");
    assert.equal(await language(page), "es", "it was chosen");
    await page.until(() => location.pathname === "/" && location.search === "");
    await go(page, "/link");
    assert.match(await page.evaluate(() => document.querySelector("#address").value), new RegExp(`^${site}#`));
    await withPage("chromium", phone, async (other) => {
      await other.goto(`${site}es.html#demo`);
      await at(other, "/");
      assert.equal(await language(other), "en", "an address that was passed on chooses nothing");
      assert.equal(await other.evaluate(() => location.pathname), "/");
    });
  }));

for (const engine of engines.filter((e) => e !== "webkit"))
  test(`${engine}: without scripts each language's page stands, and links to the other`, () =>
    withPage(engine, { ...phone, javascript: false }, async (page) => {
      await page.goto(site);
      // Asked again and again from here: where a page's scripts are off, nothing waits inside it.
      const comes = async (tag) => {
        for (let tries = 0; tries < 200 && (await page.evaluate("() => document.documentElement.lang")) !== tag; tries++) await pause(50);
        assert.equal(await page.evaluate("() => document.documentElement.lang"), tag);
      };
      // Nor does Firefox's driver click there: it goes where the link leads.
      const tap = async (tag) => {
        const link = `noscript .languages a[hreflang="${tag}"]`;
        if (engine === "chromium") await page.click(link);
        else await page.goto(await page.evaluate(`() => document.querySelector('${link}').href`));
        await comes(tag);
      };
      await tap("es");
      assert.equal(await page.text('noscript .languages a[hreflang="en"]'), "English");
      assert.match(await page.text("#signs"), /911/);
      await tap("en");
      assert.equal(await page.text('noscript .languages a[hreflang="es"]'), "Español");
    }));


// What somebody typed into the example, and the parts of a rule's text (RFC 5545), which are
// the same in every language.
const typed = new Set(("Rosa Dana Luis Mina Tomas Alder Ferry Hospital Millrace Road Therapy Quay Street Visit after two weeks "
  + "Loose trousers exercise sheet Feed the cat Ask Ode next door take mail Bring for desk reading lamp "
  + "not kneel new knee until surgeon says RRULE FREQ WEEKLY COUNT").split(" "));

test("chromium: in another language every screen speaks it, and runs its way", () =>
  withPage("chromium", phone, async (page) => {
    await page.goto(pseudo);
    await at(page, "/");
    await page.click("#language-qps");
    await speaks(page, "qps");
    await demo(page, pseudo);
    const paths = await everyScreen(page, async (path) => {
      assert.deepEqual(await page.evaluate(() => [document.documentElement.dir, getComputedStyle(document.querySelector("#title")).direction]), ["rtl", "rtl"], path);
      if (path === "/sources") return; // titles of books and papers are not translated
      const left = (await plainWords(page)).filter((word) => !typed.has(word));
      assert.deepEqual(left, [], `${path} has words that are in no language's folder`);
    });
    assert.ok(paths.length >= 25, `only ${paths.length} screens: ${paths}`);
  }));

test("chromium: from right to left lines begin at the right edge, and numbers to dial stay as they are", () =>
  withPage("chromium", phone, async (page) => {
    await page.goto(pseudo);
    await at(page, "/");
    await page.click("#language-qps");
    await speaks(page, "qps");
    await demo(page, pseudo);
    const places = await page.evaluate(() => {
      const range = document.createRange();
      range.selectNodeContents(document.querySelector("#days-title"));
      const first = range.getClientRects()[0];
      const column = document.querySelector("#days").getBoundingClientRect();
      const post = document.querySelector(".post");
      const style = getComputedStyle(post);
      return {
        title: column.right - first.right, rail: [parseFloat(style.paddingRight), parseFloat(style.paddingLeft)],
        knob: post.getBoundingClientRect().right - parseFloat(getComputedStyle(post, "::after").right),
        mast: document.querySelector(".mark").getBoundingClientRect().left > document.querySelector(".languages").getBoundingClientRect().left,
        tel: [...document.querySelectorAll(".tel")].map((e) => getComputedStyle(e).direction),
        times: [...document.querySelectorAll("time")].map((e) => getComputedStyle(e).unicodeBidi),
      };
    });
    assert.ok(Math.abs(places.title) < 2, "a heading begins at the right edge");
    assert.ok(places.rail[0] > 30 && places.rail[1] < 5, `the rail is at the right: ${places.rail}`);
    assert.ok(places.mast, "the name is at the right, the switch at the left");
    assert.ok(places.tel.length > 0 && places.tel.every((d) => d === "ltr"), `${places.tel}`);
    assert.ok(places.times.length > 0 && places.times.every((d) => d === "isolate"), `${places.times}`);
  }));
