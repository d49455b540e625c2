// The whole core behind the one that came first, with stand-ins for both (stage/core.js): when it is
// loaded, what the screen does meanwhile, and what when it does not come.

import assert from "node:assert/strict";
import test, { after, before } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { startStage } from "./stage/server.mjs";

let stage;
before(async () => { stage = await startStage(); });
after(() => stage.close());

const shows = (page, text) => page.until("(t) => document.querySelector('#app h1')?.innerText === t", text);
const seen = (page, selector) => page.evaluate("(s) => [...document.querySelectorAll(s)].some((e) => e.getClientRects().length > 0)", selector);
const until = (page, selector, on) =>
  page.until("([s, on]) => [...document.querySelectorAll(s)].some((e) => e.getClientRects().length > 0) === on", [selector, on]);
const by = (page) => page.evaluate("() => answeredBy");

async function facts(page) {
  await page.goto("about:blank");
  await page.goto(`${stage.url}#p1`);
  await shows(page, "Plan");
  await page.click("#facts-link");
  await shows(page, "Facts");
}

const cases = {
  async "what is elsewhere comes from the whole core, which then answers everything"(page) {
    await facts(page);
    await page.click("#far-link");
    await shows(page, "Far");
    assert.deepEqual(await by(page), ["near", "near", "near", "whole"]);
    assert.equal(await seen(page, "#fetching"), false);
    await page.evaluate("() => history.back()");
    await shows(page, "Plan");
    assert.equal((await by(page)).at(-1), "whole");
  },

  async "while it is on its way the page says so, and a form keeps what was typed"(page) {
    stage.whole("held");
    await facts(page);
    await page.fill("#far-text", "three loaves");
    await page.click("#far");
    await until(page, "#fetching", true);
    await page.until("() => document.getElementById('say').textContent === 'fetching the rest'");
    assert.equal(await page.evaluate("() => document.getElementById('far-text').value"), "three loaves");
    stage.whole("there");
    await shows(page, "Far");
    const pairs = await page.evaluate("() => asked.at(-1)");
    assert.deepEqual(pairs.find(([key]) => key === "field.text"), ["field.text", "three loaves"]);
  },

  async "what is asked for meanwhile replaces it"(page) {
    stage.whole("held");
    await facts(page);
    await page.click("#far-link");
    await until(page, "#fetching", true);
    await page.click("#save");
    await page.until("() => document.getElementById('name').value === 'SAVED'");
    stage.whole("there");
    await until(page, "#fetching", false);
    await shows(page, "Facts");
    assert.deepEqual(await by(page), ["near", "near", "near", "near"]);
  },

  async "one that does not come is said, changes nothing, and is tried again"(page) {
    stage.whole("lost");
    await facts(page);
    await page.fill("#far-text", "three loaves");
    await page.click("#far");
    await until(page, '#trouble [data-why="whole"]', true);
    assert.equal(await seen(page, "#fetching"), false);
    assert.equal(await page.evaluate("() => document.getElementById('far-text').value"), "three loaves");
    assert.ok(await page.evaluate("() => Object.values({ ...sessionStorage }).some((text) => text.includes('three loaves'))"), "the draft is kept");
    await page.click("#save"); // what the near core answers goes on
    await page.until("() => document.getElementById('name').value === 'SAVED'");
    stage.whole("there");
    await page.click("#far-link");
    await shows(page, "Far");
    assert.equal(await seen(page, "#trouble"), false);
  },

  async "the near core, started after it, does not take its place"(page) {
    await page.goto("about:blank");
    await page.goto(`${stage.url}?ahead=leaves#p1`);
    await shows(page, "Plan"); // the near core has left it, and has not started yet
    await page.evaluate("() => letCore()");
    await page.until("() => globalThis.nearCame");
    await page.click("#facts-link");
    await shows(page, "Facts");
    await page.click("#far-link");
    await shows(page, "Far");
    assert.deepEqual(await by(page), ["whole", "whole", "whole"]);
    assert.equal(await seen(page, "#trouble"), false);
  },

  async "what it leaves as well is said, and not asked for ever"(page) {
    await facts(page);
    await page.fill("#nowhere-text", "three loaves");
    for (const askedBy of [["near", "near", "near", "whole"], ["near", "near", "near", "whole", "whole"]]) {
      await page.click("#nowhere");
      await until(page, '#trouble [data-why="core"]', true);
      await page.evaluate("() => new Promise((go) => setTimeout(go, 200))");
      assert.deepEqual(await by(page), askedBy);
    }
    assert.equal(await seen(page, "#fetching"), false);
    assert.equal(await page.evaluate("() => document.getElementById('nowhere-text').value"), "three loaves");
    assert.ok(await page.evaluate("() => Object.values({ ...sessionStorage }).some((text) => text.includes('three loaves'))"), "the draft is kept");
    await page.click("#far-link");
    await shows(page, "Far");
    assert.equal(await seen(page, "#trouble"), false);
  },

  async "what a worker works out is not used where another tab has stored something of the plan meanwhile"(page) {
    await page.goto("about:blank");
    await page.goto(`${stage.url}?ahead=answers#p1`);
    await shows(page, "From the worker");
    await page.evaluate("() => letCore()");
    for (const meanwhile of [false, true]) {
      await page.click("#facts-link");
      await shows(page, "Facts");
      await page.click("#far-link");
      await shows(page, "Far");
      await page.evaluate(`() => {
        globalThis.channel = new BroadcastChannel("aside");
        globalThis.aside = new Promise((go) => { channel.onmessage = go; });
        history.replaceState({ path: "/split/suggest" }, "", "#p4");
        dispatchEvent(new PopStateEvent("popstate"));
      }`);
      await page.evaluate("async () => { await aside; }");
      // An address of the stage has no plan's number, so what counts is what is kept of no plan.
      if (meanwhile) await page.evaluate("() => localStorage.setItem('newel.me', '9')");
      await page.evaluate("() => channel.postMessage('go')");
      await shows(page, meanwhile ? "Facts" : "From the worker");
    }
    assert.deepEqual(await page.evaluate("() => asked.at(-1).filter(([name]) => name === 'path' || name === 'kept.me')"), [["path", "/split/suggest"], ["kept.me", "9"]]);
  },

  async "it is fetched when the line is idle, after the first answer, once"(page) {
    await page.goto("about:blank"); // what the page before asks for when it is idle is not counted
    await new Promise((go) => setTimeout(go, 300));
    const before = stage.wholeAsked();
    await facts(page);
    for (let tries = 0; stage.wholeAsked() === before && tries < 100; tries++) await new Promise((go) => setTimeout(go, 50));
    await page.click("#save");
    await page.until("() => document.getElementById('name').value === 'SAVED'");
    assert.equal(stage.wholeAsked(), before + 1);
    assert.deepEqual(await by(page), ["near", "near", "near"], "and does not run");
  },

  async "it is not, where pages are asked to be sparing"(page) {
    await page.goto("about:blank");
    await page.goto(`${stage.url}?storage=sparing#p1`);
    const before = stage.wholeAsked();
    await shows(page, "Plan");
    await page.evaluate("() => new Promise((go) => setTimeout(go, 2500))");
    assert.equal(stage.wholeAsked(), before);
  },

  async "the navigator's address loads it alone"(page) {
    await page.goto("about:blank");
    await page.goto(`${stage.url}#desk`);
    await shows(page, "Plan");
    assert.equal(await page.evaluate("() => performance.getEntriesByType('resource').filter((e) => e.name.endsWith('/core.wasm')).length"), 0);
  },
};

for (const engine of engines) {
  test(`the whole core in ${engine}`, () => withPage(engine, {}, async (page) => {
    for (const [name, run] of Object.entries(cases)) {
      await test(`${engine}: ${name}`, async () => {
        stage.whole("there");
        await page.goto(stage.url);
        await page.evaluate("() => localStorage.clear()");
        await run(page);
      });
    }
  }));
}
