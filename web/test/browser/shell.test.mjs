// The shell in real browsers, with a stand-in core (stage/core.js): what it sends, what it
// does with an answer, and that nothing the person did is lost.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import test, { after, before } from "node:test";
import { top } from "../compile.mjs";
import { engines, withPage } from "../engines.mjs";
import { startStage } from "./stage/server.mjs";

let stage;
before(async () => { stage = await startStage(); });
after(() => stage.close());

const shows = (page, text) => page.until("(t) => document.querySelector('#app h1')?.innerText === t", text);
/** The fields of the last request, or one of its keys. */
const last = async (page, key) => {
  const pairs = await page.evaluate("() => asked.at(-1)");
  return key ? pairs.find(([name]) => name === key)?.[1]
    : pairs.filter(([name]) => name.startsWith("field.")).map(([name, value]) => [name.slice(6), value]);
};
const where = (page) => page.evaluate("() => [history.state?.path, location.hash, history.length]");
const troubleShown = (page) => page.evaluate(`() => [...document.querySelectorAll("#trouble [data-why]")]
  .filter((e) => e.getClientRects().length > 0).map((e) => e.dataset.why)`);

async function openPlan(page, rest = "#p1") {
  await page.goto("about:blank"); // so that a new fragment is a new load
  await page.goto(stage.url + rest);
  await shows(page, "Plan");
}
async function openFacts(page) {
  await openPlan(page);
  await page.click("#facts-link");
  await shows(page, "Facts");
}

const cases = {
  async "the first request names the fragment and this device"(page) {
    await openPlan(page);
    assert.equal(await page.evaluate("() => asked.length"), 1);
    const pairs = Object.fromEntries(await page.evaluate("() => asked[0]"));
    assert.equal(pairs.path, "/");
    assert.equal(pairs.fragment, "p1");
    assert.equal(pairs.zone, "America/Chicago");
    assert.match(pairs.random, /^[0-9a-f]{32}$/);
    assert.ok(Math.abs(Number(pairs.now) - Date.now() / 1000) < 60);
    assert.equal(pairs.language, await page.evaluate("() => navigator.language"));
    assert.equal(await page.evaluate("() => document.title"), "/");
    assert.deepEqual(await troubleShown(page), []);
  },

  async "a core with a content type that streaming refuses loads all the same"(page) {
    await openPlan(page, "?core=plain#p1");
  },

  async "a core that never loads leaves the guide and says so"(page) {
    await page.goto(`${stage.url}?core=missing#p1`);
    await page.until("() => !document.getElementById('trouble').hidden");
    assert.deepEqual(await troubleShown(page), ["core"]);
    assert.equal(await page.text("#guide"), "The static guide");
    assert.ok(await page.evaluate("() => document.getElementById('waiting') === null"));
    // A jump in the guide must not put its id where the address holds the plan.
    await page.click("#to-guide");
    assert.equal(await page.evaluate("() => document.activeElement.id"), "guide");
    assert.equal(await page.evaluate("() => location.hash"), "#p1");
  },

  async "a form is sent in its order, with the button that was pressed"(page) {
    await openFacts(page);
    await page.fill("#name", "Zoë");
    await page.click("#cook");
    await page.click("#save");
    assert.deepEqual(await last(page), [
      ["name", "Zoë"], ["can", "cook"], ["can", "drive"], ["note", "two\nlines"], ["act", "save"],
    ]);
    assert.equal(await last(page, "path"), "/save");
    assert.equal(await last(page, "fragment"), "p1");
  },

  async "Enter in a field sends the form, formaction wins over action"(page) {
    await openFacts(page);
    await page.click("#name");
    await page.press("Enter");
    assert.equal(await last(page, "path"), "/save");
    await page.click("#add");
    assert.equal(await last(page, "path"), "/add");
  },

  async "after a form is sent, its fields are the core's and other drafts stay"(page) {
    await openFacts(page);
    await page.fill("#draft-text", "half a sen");
    await page.fill("#name", "typed");
    await page.click("#cook");
    await page.click("#save");
    assert.deepEqual(await page.evaluate(`() => [document.getElementById("name").value,
      document.getElementById("cook").checked, document.getElementById("draft-text").value]`), ["SAVED", false, "half a sen"]);
    // The field follows the core again later on: it does not stay marked as typed in.
    await page.evaluate("() => { history.replaceState({ path: '/facts' }, '', '#p4'); dispatchEvent(new PopStateEvent('popstate')); }");
    assert.equal(await page.evaluate("() => document.getElementById('name').value"), "Ann");
  },

  async "data-send sends after the frame that shows the tick, and the core decides about it"(page) {
    await openFacts(page);
    const sent = async (act) => {
      const before = await page.evaluate("() => asked.length");
      await act();
      await page.until("(n) => asked.length > n", before);
    };
    assert.deepEqual(await page.evaluate(`() => {
      const { length } = asked;
      document.getElementById("tick").click();
      return [asked.length - length, document.getElementById("tick").checked];
    }`), [0, true]);
    await page.until("() => !document.getElementById('tick').checked");
    await sent(() => page.click("#tick"));
    assert.deepEqual(await last(page), [["tick", "on"], ["choice", "a"]]);
    assert.equal(await page.evaluate("() => document.getElementById('tick').checked"), false);
    assert.equal(await page.evaluate("() => document.activeElement.id"), "tick");
    await sent(() => page.fill("#choice", "b"));
    assert.deepEqual(await last(page), [["choice", "b"]]);
  },

  async "a jump inside the page scrolls and focuses, and leaves the address alone"(page) {
    await openPlan(page);
    const before = await where(page);
    await page.click("#jump");
    assert.equal(await page.evaluate("() => document.activeElement.id"), "lists");
    assert.ok(await page.evaluate("() => scrollY > 1000"));
    assert.deepEqual(await where(page), before);
    await page.evaluate("() => scrollTo(0, 0)");
    await page.click("#skip");
    assert.equal(await page.evaluate("() => document.activeElement.id"), "app");
    assert.deepEqual(await where(page), before);
    assert.equal(await page.evaluate("() => asked.length"), 1);
  },

  async "a link with data-path asks for that path, and the history follows"(page) {
    await openPlan(page);
    const [, , length] = await where(page);
    await page.click("#facts-link");
    await shows(page, "Facts");
    assert.deepEqual(await where(page), ["/facts", "#p1", length + 1]);
    assert.equal(await page.evaluate("() => document.activeElement.id"), "top");
    await page.click("#save"); // answers with a new fragment and no push
    assert.deepEqual(await where(page), ["/facts", "#p3", length + 1]);
    await page.back();
    await shows(page, "Plan");
    assert.equal(await last(page, "fragment"), "p1");
    await page.forward();
    await shows(page, "Facts");
    assert.equal(await last(page, "fragment"), "p3");
    assert.equal(await last(page, "path"), "/facts");
  },

  async "back and forward ask once each"(page) {
    await openFacts(page);
    await page.click("#save"); // another fragment, so that popstate and hashchange both fire
    await page.evaluate("() => { asked.length = 0; }");
    await page.back();
    await shows(page, "Plan");
    await page.forward();
    await shows(page, "Facts");
    await page.evaluate("() => new Promise((done) => setTimeout(done, 200))");
    assert.deepEqual(await page.evaluate("() => asked.map((pairs) => pairs[0][1])"), ["/", "/facts"]);
  },

  async "a link to another plan, or an edited address, shows that plan"(page) {
    await openFacts(page);
    await page.back();
    await shows(page, "Plan");
    await page.click("#second-plan");
    await page.until("() => asked.at(-1)[1][1] === 'p2'");
    assert.equal(await last(page, "path"), "/");
    await page.evaluate("() => { location.hash = 'p9'; }");
    await page.until("() => asked.at(-1)[1][1] === 'p9'");
    await page.until("() => history.state?.path === '/'");
  },

  async "a reload shows the same screen"(page) {
    await openFacts(page);
    await page.reload();
    await shows(page, "Facts");
    assert.equal(await page.evaluate("() => asked[0][0][1]"), "/facts");
  },

  async "the core's faults say so and change nothing else"(page) {
    await openFacts(page);
    for (const fault of ["throw", "dead", "junk"]) {
      await page.fill("#name", `typed ${fault}`);
      await page.click(`#${fault}`);
      await page.until(`() => document.querySelector('#trouble [data-why="core"]')?.getClientRects().length > 0`); // the core is started anew first
      assert.deepEqual(await troubleShown(page), ["core"]);
      assert.equal(await page.evaluate("() => document.getElementById('name').value"), `typed ${fault}`);
      assert.deepEqual((await where(page)).slice(0, 2), ["/facts", "#p1"]);
      await page.click("#keep");
      assert.deepEqual(await troubleShown(page), [], "an answer takes the sentence away");
    }
  },

  async "a core that cannot be started again leaves the tick as it was, and what was typed for the next time"(page) {
    await openFacts(page);
    await page.fill("#far-text", "three loaves");
    await page.evaluate(`() => {
      WebAssembly.instantiate = async () => { throw new Error("no memory"); };
      newelHandle = () => undefined;
      document.getElementById("tick").click();
    }`);
    await page.until("() => !document.getElementById('tick').checked");
    assert.deepEqual(await troubleShown(page), ["core"]);
    await page.click("#far");
    await page.evaluate("() => new Promise((done) => setTimeout(done, 100))");
    assert.equal(await page.evaluate("() => document.getElementById('far-text').value"), "three loaves");
    await page.reload();
    await shows(page, "Facts");
    assert.equal(await page.evaluate("() => document.getElementById('far-text').value"), "three loaves");
    await page.click("#far"); // answered by the whole core, and with that forgotten
    await shows(page, "Far");
    assert.deepEqual(await page.evaluate("() => Object.keys(sessionStorage)"), []);
  },

  async "what was typed is kept until there is an answer, also where the page dies before"(page) {
    await openFacts(page);
    await page.fill("#far-text", "three loaves");
    await page.evaluate("() => { newelHandle = () => undefined; }"); // and nothing comes after it
    await page.evaluate("() => { WebAssembly.instantiate = () => new Promise(() => {}); document.getElementById('far').click(); }");
    await page.reload();
    await shows(page, "Facts");
    assert.equal(await page.evaluate("() => document.getElementById('far-text').value"), "three loaves");
  },

  async "an answer that cannot be shown is in the address all the same, on the screen where it was asked for"(page) {
    await openPlan(page);
    await page.evaluate(`() => { Object.defineProperty(document, "title", { configurable: true, set() { throw new Error("planted"); } }); }`);
    await page.click("#facts-link");
    assert.deepEqual(await troubleShown(page), ["page"]);
    const [path, , length] = await where(page);
    assert.equal(path, "/", "a screen that cannot be shown is not what a reload opens");
    await page.click("#save");
    assert.deepEqual(await where(page), ["/", "#p3", length]);
    await page.evaluate("() => { delete document.title; document.getElementById('keep').click(); }");
    assert.deepEqual(await troubleShown(page), []);
    assert.deepEqual(await where(page), ["/facts", "#p3", length]);
  },

  async "the same sentence twice is said twice"(page) {
    await openFacts(page);
    await page.evaluate(`() => {
      globalThis.heard = [];
      const line = document.getElementById("say");
      new MutationObserver(() => { if (line.textContent) heard.push(line.textContent); })
        .observe(line, { childList: true, characterData: true, subtree: true });
    }`);
    await page.click("#save");
    await page.until("() => heard.length === 1");
    await page.click("#save");
    await page.until("() => heard.length === 2");
    assert.deepEqual(await page.evaluate("() => heard"), ["Saved.", "Saved."]);
    await page.click("#keep");
    assert.equal(await page.text("#say"), "");
  },

  async "what the core keeps comes back with the next request and after a reload"(page) {
    await openFacts(page);
    await page.click("#keep");
    assert.deepEqual(await page.evaluate("() => ({ ...localStorage })"), { "newel.me": "2" });
    await page.reload();
    await shows(page, "Facts");
    assert.equal(await last(page, "kept.me"), "2");
  },

  async "the worker answers first; what is done before the page's own core has come is asked in its turn, once"(page) {
    await page.goto(`${stage.url}?ahead=answers#p1`);
    await shows(page, "From the worker");
    await page.evaluate("() => { for (const id of ['first', 'second']) document.getElementById(id).click(); }"); // before either is drawn
    assert.equal(await page.evaluate("() => asked.length"), 0, "the first question was the worker's");
    await page.evaluate("() => letCore()");
    await shows(page, "Facts");
    await page.until("() => asked.length === 2");
    assert.deepEqual(await page.evaluate("() => asked.map((pairs) => pairs.filter(([name]) => name === 'path' || name.startsWith('field.')))"),
      [[["path", "/tick"], ["field.first", "on"]], [["path", "/tick"], ["field.second", "on"]]]);
    await page.click("#name");
    assert.deepEqual(await troubleShown(page), []);
  },

  async "blocked storage is said once something is to be kept, and everything else works"(page) {
    await openPlan(page, "?storage=blocked#p1");
    assert.deepEqual(await troubleShown(page), []);
    await page.click("#facts-link");
    await shows(page, "Facts");
    await page.click("#keep");
    assert.deepEqual(await troubleShown(page), ["storage"]);
    assert.equal(await page.text("#app h1"), "Facts");
  },

  async "a text is shared; else copied; else its address is shown"(page) {
    await openFacts(page);
    const stand = (name, value) => page.evaluate(
      `(name) => { Object.defineProperty(navigator, name, { configurable: true, value: ${value} }); }`, name);
    await stand("share", "async (data) => { globalThis.shared = data; }");
    await page.click("#send");
    await page.until("() => globalThis.shared");
    assert.deepEqual(await page.evaluate("() => shared"), { title: "A plan", text: "Open this:", url: `${stage.url}#p1` });

    await stand("share", "undefined");
    await stand("clipboard", "{ writeText: async (text) => { globalThis.copied = text; } }");
    await page.click("#send");
    await page.until("() => globalThis.copied");
    assert.equal(await page.evaluate("() => copied"), `Open this: ${stage.url}#p1`);

    await stand("clipboard", "{ writeText: async () => { throw new Error('denied'); } }");
    await page.click("#send");
    await page.until("() => document.activeElement.matches('[data-address]')");
    assert.equal(await page.evaluate("() => document.activeElement.value"), `${stage.url}#p1`);
  },

  async "a sharing sheet that the person closes is not followed by anything"(page) {
    await openFacts(page);
    await page.evaluate(`() => {
      globalThis.copied = 0;
      Object.defineProperty(navigator, "share", { configurable: true, value: async () => { throw new DOMException("", "AbortError"); } });
      Object.defineProperty(navigator, "clipboard", { configurable: true, value: { writeText: async () => { copied++; } } });
    }`);
    await page.click("#send");
    await page.evaluate("() => new Promise((done) => setTimeout(done, 100))");
    assert.equal(await page.evaluate("() => copied"), 0);
  },

  // The stand-in core answers "/lock" and "/unlock" with a fragment and the passphrase that
  // testdata/link/locked/starter.txt has, and does not look at fields.
  async "a link is locked and the core gets the locked one, also when a refresh came in between"(page) {
    await openFacts(page);
    await page.click("#lock");
    await page.evaluate("() => document.dispatchEvent(new Event('visibilitychange'))");
    await page.until("() => asked.at(-1)[0][1] === '/link'");
    const [[name, locked], ...more] = await last(page);
    assert.equal(name, "locked");
    assert.match(locked, /^gA[A-Za-z0-9_-]+$/);
    assert.deepEqual(more, [["phrase", "four warm loaves of bread"]]); // to be read out
    assert.equal(await last(page, "fragment"), "AAEC", "the plan that was locked");
  },

  async "what was locked for a screen that the person has left is dropped"(page) {
    await openFacts(page);
    await page.click("#lock");
    await page.back();
    await shows(page, "Plan");
    const count = await page.evaluate("() => asked.length");
    await page.evaluate("() => new Promise((done) => setTimeout(done, 3000))");
    assert.equal(await page.evaluate("() => asked.length"), count);
  },

  async "a locked link leads to its plan, or back to the core with what is wrong"(page) {
    const text = await readFile(join(top, "testdata/link/locked/starter.txt"), "utf8");
    const [locked, plain] = ["fragment", "plain"].map((key) => new RegExp(`^${key}: (.*)$`, "m").exec(text)[1]);
    const other = await readFile(join(top, "testdata/link/locked/small.txt"), "utf8");
    const asks = async (fragment, path) => {
      await page.evaluate("(f) => { history.replaceState({ path: '/facts' }, '', '#' + f); dispatchEvent(new PopStateEvent('popstate')); }", fragment);
      await shows(page, "Facts");
      await page.evaluate("() => { asked.length = 0; document.getElementById('unlock').click(); }");
      await page.until("(p) => asked.length > 1 && asked[1][0][1] === p", path);
      return page.evaluate("() => asked[1].filter(([name]) => name === 'fragment' || name.startsWith('field.'))");
    };
    await openFacts(page);
    assert.deepEqual(await asks(locked, "/"), [["fragment", plain]]);
    const otherLink = /^fragment: (.*)$/m.exec(other)[1];
    // The phrase comes back, to be mended in its field.
    const phrase = ["field.phrase", "four warm loaves of bread"];
    assert.deepEqual(await asks(otherLink, "/unlock"), [["fragment", otherLink], ["field.wrong", "1"], phrase]);
    const cut = locked.slice(0, -4);
    assert.deepEqual(await asks(cut, "/unlock"), [["fragment", cut], ["field.damaged", "1"], phrase]);
  },

  // "/fast" asks for a refresh every second.
  async "a refresh waits while somebody types on a form's screen"(page) {
    await openPlan(page);
    await page.evaluate("() => { history.replaceState({ path: '/fast' }, '', '#p1'); dispatchEvent(new PopStateEvent('popstate')); }");
    await shows(page, "Facts");
    await page.click("#name");
    await page.evaluate("() => { asked.length = 0; return new Promise((done) => setTimeout(done, 2500)); }");
    assert.equal(await page.evaluate("() => asked.length"), 0);
    await page.fill("#name", "typed");
    await page.evaluate("() => { document.getElementById('cook').checked = true; document.activeElement.blur(); extra = '<p id=news>news</p>'; }");
    await page.until("() => document.getElementById('news')");
    assert.equal(await page.evaluate("() => asked.at(-1)[0][1]"), "/fast");
    assert.deepEqual(await page.evaluate("() => [document.getElementById('name').value, document.getElementById('cook').checked]"),
      ["typed", true], "what is not sent yet survives a refresh");
  },

  async "a page that was only opened is refreshed by the clock"(page) {
    await openPlan(page);
    await page.evaluate("() => history.replaceState({ path: '/fast' }, '', '#p1')");
    await page.reload();
    await shows(page, "Facts");
    await page.until("() => asked.length > 2");
  },

  async "a refresh of the plan keeps typing, caret, focus and opened details"(page) {
    await openPlan(page);
    // The clock cannot be hurried, but coming back into view refreshes as well, once the
    // core has asked for refreshing.
    const refresh = async (extra) => {
      await page.evaluate(`(html) => {
        const real = newelHandle;
        newelHandle = (bytes) => { newelHandle = real; extra = html; return real(bytes); };
        document.dispatchEvent(new Event("visibilitychange"));
      }`, extra);
    };
    await page.evaluate(`() => {
      const real = newelHandle;
      newelHandle = (bytes) => {
        const text = new TextDecoder().decode(real(bytes));
        return new TextEncoder().encode(text.replace(/\\x01\\0\\0\\x000$/, "\\x03\\0\\0\\x00999"));
      };
      history.replaceState({ path: "/" }, "", "#p5"); dispatchEvent(new PopStateEvent("popstate"));
      newelHandle = real;
    }`);
    await page.click("#why summary");
    await page.click("#typing");
    await page.type("helo");
    await page.press("ArrowLeft");
    const count = await page.evaluate("() => asked.length");
    await refresh("<p id='news'>news</p>");
    assert.equal(await page.evaluate("() => asked.length"), count + 1);
    await page.type("l");
    assert.deepEqual(await page.evaluate(`() => [document.getElementById("typing").value,
      document.getElementById("why").open, !!document.getElementById("news")]`), ["hello", true, true]);
  },
};

for (const engine of engines) {
  test(`the shell in ${engine}`, () => withPage(engine, { timezone: "America/Chicago" }, async (page) => {
    for (const [name, run] of Object.entries(cases)) {
      await test(`${engine}: ${name}`, async () => {
        await page.goto(stage.url);
        await page.evaluate("() => localStorage.clear()");
        await run(page);
      });
    }
  }));
}
