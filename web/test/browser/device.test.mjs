// The device as it is in a bad week: storage that is blocked, full or damaged, two tabs, a clock and a
// zone that change, the way back, a core that dies. What storage events are and when they come is HTML
// 12.2.2; what a page in the back/forward cache does is HTML 7.4.6; the rest is our own promise: what
// was done is not lost, and the page says what is wrong.

import assert from "node:assert/strict";
import test, { after, before } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { at, phone, said, unfold } from "../family.mjs";
import { startOdd } from "./stage/odd.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

let odd;
before(async () => { odd = await startOdd(site); });
after(() => odd.close());

const ready = (page) => page.until(() => document.querySelector("#next") !== null && document.querySelector("#waiting") === null && document.querySelector("#stood").hidden && history.state?.path === "/" && typeof globalThis.newelHandle === "function");
const troubles = (page) => page.evaluate(() => [...document.querySelectorAll("#trouble p[data-why]")].filter((e) => e.getClientRects().length > 0).map((e) => e.dataset.why));
const aside = (page) => page.goto(`${odd.url}nothing-here`);
const visit = async (page, fragment) => {
  await aside(page);
  await page.goto(odd.url + fragment);
  await ready(page);
};
/** Opens the example as a plan of one's own; gives the address's fragment. */
async function plan(page) {
  odd.script = "";
  await aside(page);
  await page.evaluate(() => { localStorage.clear(); sessionStorage.clear(); });
  await page.goto(`${odd.url}#demo`);
  await ready(page);
  await page.evaluate(() => { for (const key of Object.keys(localStorage)) if (key.startsWith("newel.demo.")) localStorage.removeItem(key); });
  return page.evaluate(() => location.hash);
}
/** Opens the first list and gives the state of its boxes. */
async function boxes(page) {
  await unfold(page, await page.evaluate(() => document.querySelector("#lists details.list").id));
  return page.evaluate(() => [...document.querySelectorAll("#lists details.list[open] form.tick input[type=checkbox]")].map((box) => box.checked));
}
/** Taps one of them and waits until the address has it. */
async function tick(page, n) {
  await boxes(page);
  await page.evaluate((i) => {
    globalThis.hashBefore = location.hash;
    document.querySelectorAll("#lists details.list[open] form.tick input[type=checkbox]")[i].click();
  }, n);
  await page.until(() => location.hash !== globalThis.hashBefore);
}
/** Opens the plan in a frame, inner(), which hears of what the page around it stores as another tab does. */
async function inOtherTab(page, start) {
  await aside(page);
  await page.evaluate((address) => {
    document.body.innerHTML = '<iframe id="other" style="width: 100%; height: 600px"></iframe>';
    document.getElementById("other").src = address;
    globalThis.inner = () => document.getElementById("other").contentWindow;
  }, odd.url + start);
  await page.until(() => inner().document.querySelector("#next") !== null && inner().history.state?.path === "/");
}
const again = (page) => page.evaluate(() => { document.dispatchEvent(new Event("visibilitychange")); });
const planKey = (page) => page.evaluate(() => Object.keys(localStorage).find((key) => key.startsWith("newel.plan.")));

const blocked = `for (const name of ["localStorage", "sessionStorage", "caches"])
  Object.defineProperty(window, name, { configurable: true, get() { throw new DOMException("blocked by the test", "SecurityError"); } });`;

const cases = {
  async "blocked storage: the plan is worked with all the same, the page says so, and hands out the link"(page) {
    await plan(page);
    for (const script of [blocked, 'Object.defineProperty(window, "localStorage", { value: null });']) {
      odd.script = script;
      await aside(page);
      await page.goto(`${odd.url}#demo`);
      await ready(page);
      await tick(page, 0);
      await tick(page, 1);
      assert.deepEqual((await boxes(page)).slice(0, 2), [true, true]);
      assert.deepEqual(await troubles(page), ["storage"]);
      await page.click("#rescue-copy");
      await page.until(() => document.querySelector("#rescue [data-came]:not([hidden])") !== null);
      const [link, copied, field] = await page.evaluate(() => [location.href, !document.querySelector('[data-came="copied"]').hidden, document.querySelector("#rescue-link").value]);
      assert.equal(copied ? await page.clipboard() : field, link);
      await page.reload();
      await ready(page);
      assert.deepEqual((await boxes(page)).slice(0, 2), [true, true], "what was done is in the address");
    }
  },

  async "full storage: what is done is in the address, the page says so, and stores it once there is room"(page) {
    const start = await plan(page);
    await page.evaluate(() => {
      let size = 1 << 20;
      for (let n = 0; size > 0; n++) {
        try { localStorage.setItem(`other${n}`, "x".repeat(size)); } catch { size >>= 1; }
      }
    });
    await visit(page, start);
    await tick(page, 0);
    await tick(page, 1);
    const done = await page.evaluate(() => location.hash);
    assert.deepEqual(await troubles(page), ["storage"]);
    await page.reload();
    await ready(page);
    assert.deepEqual((await boxes(page)).slice(0, 2), [true, true]);
    await page.evaluate(() => { for (const key of Object.keys(localStorage)) if (key.startsWith("other")) localStorage.removeItem(key); });
    await tick(page, 2);
    assert.deepEqual(await troubles(page), []);
    await visit(page, start);
    assert.deepEqual((await boxes(page)).slice(0, 3), [true, true, true]);
    assert.notEqual(done, await page.evaluate(() => location.hash));
  },

  async "damaged storage: the plan opens, with what was known last where that is sound"(page) {
    const start = await plan(page);
    await tick(page, 0);
    const sound = await page.evaluate(() => ({ ...localStorage }));
    const n = (await planKey(page)).slice("newel.plan.".length);
    const damages = {
      "cut off": (value) => value.slice(0, value.length / 2),
      "nothing left": () => "",
      "random bytes": () => String.fromCharCode(...Array.from({ length: 300 }, (_, i) => (i * 7919) % 65_536)),
      "one letter": (value) => `${value.slice(0, 60)}${value[60] === "A" ? "B" : "A"}${value.slice(61)}`,
      "another kind": () => '{"plan":[1,2,3]}',
    };
    for (const [name, damage] of Object.entries(damages)) {
      for (const every of name === "cut off" || name === "nothing left" ? [false, true] : [true]) {
        await aside(page);
        const broken = Object.fromEntries(Object.entries(sound).map(([key, value]) => [key, every || key === `newel.plan.${n}` ? damage(value) : value]));
        await page.evaluate((all) => {
          localStorage.clear();
          for (const [key, value] of Object.entries(all)) localStorage.setItem(key, value);
          localStorage.setItem("newel-stood", '{}\n<h1 id="planted">planted</h1>');
          localStorage.setItem("newel.\ud800", "half a letter");
          localStorage.setItem("newel.\ud801", "another half");
          localStorage.setItem("newel.nothing.we.know", "x");
        }, broken);
        await page.goto(odd.url + start);
        await ready(page);
        const where = `${name}, ${every ? "everything" : "the plan alone"}`;
        assert.deepEqual(await troubles(page), [], where);
        assert.equal(await page.evaluate(() => document.querySelector("#planted") === null), true, where);
        assert.equal((await boxes(page))[0], !every, `${where}: the tick is in what was read as well`);
        assert.equal(await page.evaluate((key) => localStorage.getItem(key), `newel.plan.${n}`), await page.evaluate(() => location.hash.slice(1)), where);
      }
    }
  },

  async "a page as it stood that was tampered with does not stand there"(page) {
    const start = await plan(page);
    await aside(page);
    await page.evaluate(() => {
      localStorage.clear();
      localStorage.setItem("newel-stood", '{"at":1,"title":"x","language":"en","direction":"ltr"}\n<h1 id="planted">planted</h1><p id="next">x</p>');
    });
    // What stands there before the core comes is seen by whoever watches from the start.
    odd.script = 'new MutationObserver(() => { if (document.getElementById("planted")) globalThis.wasPlanted = true; }).observe(document, { subtree: true, childList: true });';
    await page.goto(odd.url + start);
    await ready(page);
    assert.equal(await page.evaluate(() => globalThis.wasPlanted ?? false), false);
    odd.script = "";
  },

  async "two tabs on one plan: each shows what the other does, and neither loses anything"(page) {
    const start = await plan(page);
    await aside(page);
    await page.evaluate((address) => {
      document.body.innerHTML = "";
      for (const name of ["one", "two"]) {
        const frame = document.createElement("iframe");
        frame.id = name;
        frame.style.cssText = "width: 100%; height: 600px";
        frame.src = address;
        document.body.append(frame);
      }
      globalThis.inner = (name) => document.getElementById(name).contentWindow;
      globalThis.boxesOf = (name) => [...inner(name).document.querySelectorAll("#lists details.list form.tick input[type=checkbox]")].slice(0, 4);
    }, odd.url + start);
    await page.until(() => ["one", "two"].every((name) => inner(name).document.querySelector("#next") !== null && inner(name).history.state?.path === "/"));
    await page.evaluate(() => { for (const name of ["one", "two"]) inner(name).document.querySelector("#lists details.list:not([open]) summary").click(); });
    await page.until(() => ["one", "two"].every((name) => boxesOf(name).length >= 2));
    const both = (n) => page.until((count) => ["one", "two"].every((name) => boxesOf(name).filter((box) => box.checked).length === count), n);
    await page.evaluate(() => { boxesOf("one")[0].click(); boxesOf("two")[1].click(); });
    await both(2);
    // Two processes may write at the same moment, and one of them then has the last word in storage.
    const key = await planKey(page);
    await page.evaluate((k, old) => localStorage.setItem(k, old), key, start.slice(1));
    await page.until((k, old) => localStorage.getItem(k) !== old && localStorage.getItem(k) === inner("one").location.hash.slice(1), key, start.slice(1));
    await both(2);
    assert.equal(await page.evaluate(() => inner("one").location.hash === inner("two").location.hash), true);
  },

  async "a plan is removed in one tab: the other turns to the start, and keeps nothing of it again"(page) {
    const start = await plan(page);
    await inOtherTab(page, start);
    const n = (await planKey(page)).slice("newel.plan.".length);
    // What is gone only for a moment was not removed.
    await page.evaluate((key) => { const value = localStorage.getItem(key); localStorage.removeItem(key); localStorage.setItem(key, value); }, `newel.plan.${n}`);
    await page.evaluate(() => new Promise((done) => setTimeout(done, 300)));
    assert.equal(await page.evaluate(() => inner().location.hash), start);
    // As forgetting a plan does in another tab (core/app/forget.go).
    await page.evaluate((number) => { for (const key of Object.keys(localStorage)) if (key.includes(`.${number}`)) localStorage.removeItem(key); }, n);
    await page.until(() => inner().location.hash === "" && inner().document.querySelector("#next") === null && inner().document.querySelector("#paste") !== null);
    await page.evaluate(() => { inner().document.dispatchEvent(new Event("visibilitychange")); });
    await page.until(() => inner().document.querySelector("#notice-elsewhere") !== null); // and says why, also when it is looked at again
    assert.deepEqual(await page.evaluate((number) => Object.keys(localStorage).filter((key) => key.includes(number)), n), []);
  },

  async "everything is removed in one tab: the other keeps nothing of it again"(page) {
    const start = await plan(page);
    await inOtherTab(page, start);
    await page.evaluate(() => {
      inner().sessionStorage.setItem("newel-draft.x", "[]");
      // As web/wipe.ts does in another tab.
      localStorage.setItem("newel-wiped", "1");
      for (const key of Object.keys(localStorage)) localStorage.removeItem(key);
    });
    await page.until(() => inner().location.hash === "" && inner().document.querySelector("#next") === null && inner().document.querySelector("#paste") !== null);
    await page.evaluate(() => { inner().document.dispatchEvent(new Event("visibilitychange")); });
    await page.until(() => inner().document.querySelector("#notice-elsewhere") !== null);
    assert.deepEqual(await page.evaluate(() => [...Object.keys(localStorage), ...Object.keys(sessionStorage)]), []);
  },

  async "a phone that travels: the hospital's times stay, its own are said, and go again at home"(page) {
    await plan(page);
    const first = await said(page, "#next");
    const zone = (name) => page.evaluate((z) => {
      globalThis.realOptions ??= Intl.DateTimeFormat.prototype.resolvedOptions;
      Intl.DateTimeFormat.prototype.resolvedOptions = function () { return { ...globalThis.realOptions.call(this), timeZone: z }; };
      document.dispatchEvent(new Event("visibilitychange"));
    }, name);
    await zone("Europe/London");
    await page.until(() => document.querySelector("#notice-zone") !== null);
    const times = (text) => text.match(/\d?\d:\d\d/g) ?? [];
    const away = await said(page, "#next");
    for (const time of times(first)) assert.ok(away.includes(time), `${time} is not in: ${away}`);
    await tick(page, 0);
    await zone("Nowhere/Atall");
    assert.deepEqual(await troubles(page), [], "a zone that nobody knows");
    await zone("America/Chicago");
    await page.until(() => document.querySelector("#notice-zone") === null);
    assert.deepEqual(times(await said(page, "#next")), times(first));
    assert.equal((await boxes(page))[0], true);
  },

  async "a clock that is wrong by a day, a year, ages: the page lives, and what is done meanwhile stays"(page) {
    await plan(page);
    await boxes(page);
    const first = await said(page, "#app .top");
    const whole = await said(page);
    let n = 0;
    for (const [off, name] of [[86_400, "a day fast"], [-86_400, "a day slow"], [31_536_000, "a year fast"], [-31_536_000, "a year slow"], [-1.5e9, "decades slow"], [2e11, "thousands of years fast"]]) {
      await page.evaluate((seconds) => {
        globalThis.realNow ??= Date.now;
        Date.now = () => globalThis.realNow.call(Date) + seconds * 1000;
        document.dispatchEvent(new Event("visibilitychange"));
      }, off);
      assert.deepEqual(await troubles(page), [], name);
      assert.notEqual(await said(page), whole, `${name}: it says what that clock says`);
      const [behind, before] = await page.evaluate(() => [document.querySelector("#notice-behind") !== null, Date.now() < Date.UTC(2026, 10, 1)]);
      assert.equal(behind, before, `${name}: no clock can stand before the page was made`);
      await tick(page, n++ % 4);
      assert.deepEqual(await troubles(page), [], name);
    }
    await page.evaluate(() => { Date.now = globalThis.realNow; });
    await again(page);
    await page.until((text) => document.querySelector("#app .top")?.textContent.replace(/\s+/g, " ").trim() === text, first);
    assert.deepEqual((await boxes(page)).slice(0, 4), [false, false, true, true], "two were ticked twice");
    await page.reload();
    await ready(page);
    assert.deepEqual((await boxes(page)).slice(0, 4), [false, false, true, true]);
  },

  async "a core that dies is started anew, and what was tapped is done; one that always fails leaves the page and the link"(page) {
    await plan(page);
    const trap = [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 7, 5, 1, 1, 116, 0, 0, 10, 5, 1, 3, 0, 0, 11]; // "unreachable"
    let n = 0;
    for (const fault of ["null", "undefined", "throw", "junk", "trap"]) {
      await page.evaluate((kind, bytes) => {
        globalThis.failed = 0;
        globalThis.newelHandle = () => {
          failed++;
          if (kind === "throw") throw new Error("planted");
          if (kind === "trap") new WebAssembly.Instance(new WebAssembly.Module(new Uint8Array(bytes))).exports.t();
          return kind === "null" ? null : kind === "junk" ? new Uint8Array([9, 9, 9]) : undefined;
        };
      }, fault, trap);
      const before = await page.evaluate(() => [...document.querySelectorAll("#lists details.list[open] form.tick input")].length);
      if (before === 0) await boxes(page);
      await page.evaluate((i) => document.querySelectorAll("#lists details.list[open] form.tick input[type=checkbox]")[i].click(), n++ % 3);
      await page.until(() => globalThis.failed > 0 && document.querySelector("#say").textContent !== "" && globalThis.newelHandle !== undefined);
      assert.equal(await page.evaluate(() => globalThis.failed), 1, fault);
      assert.deepEqual(await troubles(page), [], fault);
    }
    const [address, stored] = await page.evaluate(() => [location.hash, JSON.stringify({ ...localStorage })]);
    const state = await boxes(page);
    await page.evaluate(() => {
      Object.defineProperty(globalThis, "newelHandle", { configurable: true, get: () => () => undefined, set: (core) => { globalThis.realCore = core; } });
      document.querySelectorAll("#lists details.list[open] form.tick input[type=checkbox]")[3].click();
    });
    await page.until(() => !document.querySelector("#trouble").hidden);
    assert.deepEqual(await troubles(page), ["core"]);
    assert.equal(await page.evaluate(() => document.querySelector("#rescue").getClientRects().length > 0), true);
    assert.deepEqual(await page.evaluate(() => [location.hash, JSON.stringify({ ...localStorage })]), [address, stored], "the last good state");
    assert.deepEqual(await boxes(page).catch(() => state), state, "a tick that was not kept is none");
    await page.evaluate(() => { Object.defineProperty(globalThis, "newelHandle", { configurable: true, writable: true, value: globalThis.realCore }); });
    await tick(page, 3);
    assert.deepEqual(await troubles(page), []);
    assert.equal(await page.evaluate(() => document.querySelector("#rescue").hidden), true);
  },

  async "back and forward, and a page that comes out of the browser's cache, show all that is done"(page, t) {
    const start = await plan(page);
    await visit(page, start);
    await page.evaluate(() => document.querySelector('[data-path="/sources"]').click());
    await at(page, "/sources");
    await page.back();
    await ready(page);
    await tick(page, 0);
    const more = await page.evaluate(() => location.hash);
    await page.forward(); // an entry whose address has the plan as it was before
    await at(page, "/sources");
    await page.back();
    await ready(page);
    assert.equal((await boxes(page))[0], true);
    assert.equal(await page.evaluate(() => location.hash), more);
    // Another tab changes the plan while this page is in the cache.
    await tick(page, 1);
    const key = await planKey(page);
    const two = await page.evaluate((k) => localStorage.getItem(k), key);
    await visit(page, start);
    await page.evaluate((k, old) => localStorage.setItem(k, old), key, more.slice(1));
    await page.evaluate(() => { addEventListener("pageshow", (event) => { globalThis.cameBack = event.persisted; }); });
    await aside(page);
    await page.evaluate((k, then) => localStorage.setItem(k, then), key, two);
    await page.evaluate(() => { setTimeout(() => history.back(), 50); });
    await page.until(() => document.querySelector("#next") !== null).catch(() => page.until(() => document.querySelector("#next") !== null));
    await ready(page);
    t.diagnostic(`out of the cache: ${await page.evaluate(() => globalThis.cameBack ?? false)}`);
    await page.until(() => location.hash.length > 100);
    assert.deepEqual((await boxes(page)).slice(0, 2), [true, true]);
    // Where the engine's driver has no such cache, the event alone.
    await page.evaluate((k, old) => localStorage.setItem(k, old), key, start.slice(1));
    await page.evaluate(() => { dispatchEvent(new PageTransitionEvent("pageshow", { persisted: true })); });
    await page.until((k, old) => localStorage.getItem(k) !== old, key, start.slice(1));
  },
};

for (const engine of engines) {
  test(`the device in ${engine}`, () => withPage(engine, phone, async (page) => {
    for (const [name, run] of Object.entries(cases)) await test(`${engine}: ${name}`, (t) => run(page, t));
  }));
}
