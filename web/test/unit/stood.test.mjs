// The page as it stood: when it is kept, and when it is shown again.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import test, { afterEach, beforeEach } from "node:test";
import { compileShell, top } from "../compile.mjs";

const folder = compileShell();

// The links and the numbers in them are from testdata/link/heads, which Go reads too.
function link(name) {
  const text = readFileSync(join(top, "testdata/link/heads", `${name}.txt`), "utf8");
  const value = (key) => new RegExp(`^${key}: (.*)$`, "m").exec(text)?.[1];
  return { fragment: value("fragment"), number: Number(value("number")).toString(16) };
}
const { fragment, number } = link("arrival-known");

/** As a browser's localStorage of so many characters: entries are own keys, methods are not. */
function storage(room = Infinity) {
  const methods = {
    getItem(key) { return this[key] ?? null; },
    setItem(key, value) {
      const others = Object.entries(this).filter(([k]) => k !== key).reduce((sum, [k, v]) => sum + k.length + v.length, 0);
      if (others + key.length + value.length > room) throw new Error("quota");
      this[key] = value;
    },
    removeItem(key) { delete this[key]; },
  };
  globalThis.localStorage = Object.create(methods);
}

let page; // what of a browser's page the module looks at
const clock = Date;
const realZone = process.env.TZ;

beforeEach(() => {
  page = { hash: `#${fragment}`, path: "/", version: "v1", chosen: "en", hidden: true, listeners: new Map() };
  storage();
  const on = (name, run) => page.listeners.set(name, [...(page.listeners.get(name) ?? []), run]);
  const element = (attributes) => ({ dataset: {}, getAttribute: (name) => attributes[name] ?? null, toggleAttribute() {}, removeAttribute() {}, querySelector: () => null });
  globalThis.document = {
    documentElement: { lang: "en" },
    get hidden() { return page.hidden; },
    querySelector: (s) => (s === "script[data-version]" ? element({ "data-version": page.version }) : null),
    querySelectorAll: (s) => (s.includes("alternate") ? [{ hreflang: "en", href: "./" }, { hreflang: "es", href: "es.html" }] : []),
    getElementById: () => null, addEventListener: on,
  };
  globalThis.window = { addEventListener: on, setInterval: () => 0, clearInterval() {} };
  globalThis.location = { get hash() { return page.hash; }, href: "https://plans.example/newel/" };
  globalThis.history = { get state() { return { path: page.path }; } };
  Object.defineProperty(globalThis, "navigator", { configurable: true, value: { language: "en-US", languages: ["en-US"] } });
  localStorage.setItem(`newel.plan.${number}`, fragment);
  at("2027-02-01T09:00:00");
});

afterEach(() => {
  globalThis.Date = clock;
  for (const name of ["localStorage", "document", "window", "location", "history", "newelBegun"]) delete globalThis[name];
  if (realZone === undefined) delete process.env.TZ;
  else process.env.TZ = realZone;
});

/** Sets the clock to a time on this device's wall. */
function at(local) {
  const now = new clock(local).getTime();
  globalThis.Date = class extends clock {
    constructor(...args) { super(...(args.length > 0 ? args : [now])); }
    static now() { return now; }
  };
}

// A page that is opened gets the module anew.
let opened = 0;
const open = async () => import(`${join(folder, "stood.js")}?${opened++}`);

const answer = { title: "Rosa", html: "<h1>One\nand two</h1>", language: "en", direction: "ltr", fragment, path: "/" };

/** Opens the page, has the core say something, and leaves it. */
async function visit(said = {}) {
  const module = await open();
  module.keepAsItStands();
  module.isUpToDate({ ...answer, ...said });
  for (const run of page.listeners.get("visibilitychange")) run();
  page.listeners.clear();
}

const again = async () => (await open()).asItStood();

test("what the core said last stands there again, and tells the core and the device nothing", async () => {
  await visit();
  assert.deepEqual(Object.keys(localStorage).sort(), ["newel-stood", `newel.plan.${number}`].sort());
  at("2027-02-01T21:40:00");
  const page = await again();
  assert.deepEqual([page.html, page.title, page.language, page.direction, page.fragment, page.path], [answer.html, "Rosa", "en", "ltr", fragment, "/"]);
  assert.deepEqual([page.keep, page.drop, page.say, page.focus, page.push, page.refresh], [[], [], "", "", false, 0]);
});

test("while it stands, the module says so, until the core has answered", async () => {
  await visit();
  const module = await open();
  assert.equal(module.stands(), false);
  module.asItStood();
  assert.equal(module.stands(), true);
  module.isUpToDate(answer);
  assert.equal(module.stands(), false);
});

const others = {
  "another link": () => { page.hash = `#${link("arrival-unknown").fragment}`; },
  "no link": () => { page.hash = ""; },
  "another screen": () => { page.path = "/facts"; },
  "another release": () => { page.version = "v2"; },
  "another language": () => localStorage.setItem("newel.language", "es"),
  "the other clock": () => localStorage.setItem("newel.clock", "24"),
  "a device whose language writes the other clock": () => Object.defineProperty(navigator, "language", { value: "en-GB" }),
  "another helper's phone": () => localStorage.setItem(`newel.me.${number}`, "Dana"),
  "nobody's phone, after nobody was asked": () => localStorage.setItem(`newel.me.${number}`, ""),
  "the plan was changed here meanwhile": () => localStorage.setItem(`newel.plan.${number}`, link("arrival-unknown").fragment),
  "the plan is not on this device": () => localStorage.removeItem(`newel.plan.${number}`),
  "the next day": () => at("2027-02-02T00:01:00"),
  "the same day of another year": () => at("2028-02-01T09:00:00"),
  "a clock that was set back": () => at("2027-02-01T08:59:00"),
  "the core's answer is there already": () => { globalThis.newelBegun = { heard: [{ answer: new Uint8Array() }] }; },
  "a copy that is damaged": () => localStorage.setItem("newel-stood", "x"),
};
for (const [name, change] of Object.entries(others))
  test(`it does not stand there any more: ${name}`, async () => {
    await visit();
    assert.ok(await again());
    change();
    assert.equal(await again(), undefined);
  });

test("it does not stand there any more: another zone", async () => {
  process.env.TZ = "America/Chicago";
  at("2027-02-01T09:00:00");
  await visit();
  assert.ok(await again());
  process.env.TZ = "America/New_York"; // the wall shows 10:00, the same day
  assert.equal(await again(), undefined);
});

const kinds = {
  "another screen": { path: "/facts" },
  "the page of a device whose day ends at another hour than the hospital's": { html: '<section class="notice" id="notice-zone" tabindex="-1"></section>' },
  "another link than the address": { fragment: link("arrival-unknown").fragment },
};
for (const [name, said] of Object.entries(kinds))
  test(`${name} is not kept`, async () => {
    await visit(said);
    assert.equal(localStorage.getItem("newel-stood"), null);
  });

test("an example is not kept, nor a plan that this device does not keep", async () => {
  localStorage.setItem(`newel.demo.${number}`, "1");
  await visit();
  assert.equal(localStorage.getItem("newel-stood"), null);
  localStorage.removeItem(`newel.demo.${number}`);
  localStorage.removeItem(`newel.plan.${number}`);
  await visit();
  assert.equal(localStorage.getItem("newel-stood"), null);
});

test("a page that was only shown as it stood is not kept as if the core had said it again", async () => {
  await visit();
  const first = localStorage.getItem("newel-stood");
  at("2027-02-01T10:00:00");
  const module = await open();
  module.keepAsItStands();
  assert.ok(module.asItStood());
  for (const run of page.listeners.get("visibilitychange")) run();
  assert.equal(localStorage.getItem("newel-stood"), first);
});

test("where there is no room there is none, and it makes room for what matters", async () => {
  await visit({ html: "x".repeat(500) });
  const { keep } = await import(join(folder, "kept.js"));
  const full = JSON.stringify({ ...localStorage }).length;
  const entries = { ...localStorage };
  storage(full);
  Object.assign(localStorage, entries);
  assert.equal(keep([["read.1", "y".repeat(400)]], []), true);
  assert.equal(localStorage.getItem("newel-stood"), null);
  assert.equal(localStorage.getItem("newel.read.1"), "y".repeat(400));
  await visit({ html: "x".repeat(500) });
  assert.equal(localStorage.getItem("newel-stood"), null, "and takes none from it");
  assert.equal(keep([["read.2", "z".repeat(2000)]], []), false, "where nothing helps, that is told as ever");
});

test("with a plan that is removed it goes", async () => {
  await visit();
  const { keep } = await import(`${join(folder, "kept.js")}?removed`); // which holds nothing of the tests before
  keep([], [`read.${number}`]);
  assert.ok(localStorage.getItem("newel-stood"));
  keep([], [`plan.${number}`]);
  assert.deepEqual(Object.keys(localStorage), []);
});

test("blocked storage is no fault", async () => {
  Object.defineProperty(globalThis, "localStorage", { configurable: true, get() { throw new Error("denied"); } });
  await visit();
  assert.equal(await again(), undefined);
});
