// Device storage: only our own prefix, bounded, and never an exception.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import test, { afterEach, beforeEach } from "node:test";
import { compileShell, top } from "../compile.mjs";

const folder = compileShell();
const compiled = join(folder, "kept.js");
const { writeRequest } = await import(join(folder, "request.js"));

const device = { page: "https://plans.example/", zone: "America/Chicago", language: "en-US", now: 0, clock12: false, random: new Uint8Array(16) };

/** The lines of a file that the readers of a link's head share. */
function headFile(name) {
  const text = readFileSync(join(top, "testdata/link/heads", name), "utf8");
  return Object.fromEntries(text.split("\n").filter((line) => line.includes(": ")).map((line) => [line.slice(0, line.indexOf(": ")), line.slice(line.indexOf(": ") + 2)]));
}

// Each test gets the module as a page that was just opened has it.
let opened = 0;
let keep, kept, storedElsewhere;
beforeEach(async () => {
  const module = await import(`${compiled}?${opened++}`);
  ({ keep, storedElsewhere } = module);
  kept = (question = {}) => module.kept({ path: "/", fragment: "", fields: [], ...question });
});

afterEach(() => { delete globalThis.localStorage; });

/** Behaves as a browser's localStorage: entries are own keys, methods are not. */
function storage(entries = {}, fault) {
  const methods = {
    getItem(key) { return this[key] ?? null; },
    setItem(key, value) { if (fault) throw fault; this[key] = value; },
    removeItem(key) { if (fault) throw fault; delete this[key]; },
  };
  globalThis.localStorage = Object.assign(Object.create(methods), entries);
}

test("only entries under our prefix are kept, sorted, without the prefix", () => {
  storage({ "newel.b": "2", other: "x", "newel.a": "1", newel: "y" });
  assert.deepEqual(kept(), [["a", "1"], ["b", "2"]]);
});

test("keys of the page are held by the page alone", () => {
  storage({ "newel.a": "1", "newel.tab.text": "not from here" });
  assert.deepEqual(kept(), [["a", "1"]]);
  assert.equal(keep([["tab.text", "y"], ["tab.rows", "x"], ["c", "2"]], []), true);
  assert.equal(keep([], ["tab.rows"]), true);
  assert.deepEqual(kept(), [["a", "1"], ["c", "2"], ["tab.text", "y"]]);
  assert.deepEqual(Object.keys(globalThis.localStorage).sort(), ["newel.a", "newel.c", "newel.tab.text"]);
  assert.equal(globalThis.localStorage["newel.tab.text"], "not from here");
});

test("what does not fit comes with its key alone, and a smaller one after it still fits", () => {
  storage({ "newel.plan.1": "x".repeat(2800 * 1024), "newel.plan.2": "y".repeat(1600 * 1024), "newel.plan.3": "z".repeat(800 * 1024) });
  assert.deepEqual(kept().map(([key, value]) => [key, value.length]),
    [["plan.1", 2800 * 1024], ["plan.2", 0], ["plan.3", 800 * 1024]]);
});

test("what is kept leaves the room that the question needs, in UTF-8", () => {
  storage({ "newel.plan.1": "x".repeat(2000 * 1024), "newel.calendar.1.h:josé": "x".repeat(320 * 1024) });
  const size = (question) => writeRequest({ path: "/import", fragment: "", fields: [], ...question }, device, kept(question)).length;
  assert.ok(size({}) > 2320 * 1024);
  const long = { fields: [["file", "é".repeat(1024 * 1024)]] };
  assert.ok(size(long) <= 4 << 20);
  assert.deepEqual(kept(long).map(([, value]) => value.length), [2000 * 1024, 0]);
});

// The head and its number are from testdata/link/heads, which Go reads too.
test("all of the plan in hand goes first, then what is short, then plans, calendars last", () => {
  const head = headFile("arrival-known.txt");
  const n = Number(head.number).toString(16);
  const big = "x".repeat(1200 * 1024);
  storage({
    "newel.clock": "24", "newel.plan.aa": big, "newel.hand.aa": "7", "newel.me.aa": "Dana", "newel.read.aa": big, "newel.calendar.aa.all": "c",
    [`newel.plan.${n}`]: big, [`newel.read.${n}`]: big, [`newel.hand.${n}`]: "8", [`newel.calendar.${n}.all`]: big,
  });
  const got = kept({ fragment: head.fragment });
  assert.deepEqual(got.map(([key]) => key),
    [`hand.${n}`, `plan.${n}`, `read.${n}`, "clock", "hand.aa", "me.aa", `calendar.${n}.all`, "plan.aa", "read.aa", "calendar.aa.all"]);
  assert.deepEqual(got.filter(([, value]) => value === "").map(([key]) => key), ["plan.aa", "read.aa"]);
  assert.notEqual(new Map(kept()).get("plan.aa"), "", "without it in hand, the order of the keys decides");
});

test("damaged entries stand in nobody's way: a key that is no text, an entry without a value", () => {
  storage({ "newel.\ud800": "x", "newel.\ud801": "y", "newel.plan.1": "", "newel.me.1": "", "newel.hand.1": "7" });
  assert.deepEqual(kept(), [["hand.1", "7"], ["me.1", ""]]);
});

test("keep stores and removes", () => {
  storage({ "newel.old": "1" });
  assert.equal(keep([["me", "2"]], ["old"]), true);
  assert.deepEqual({ ...localStorage }, { "newel.me": "2" });
});

test("full storage says so and does not throw; the page knows it for as long as it is open", () => {
  storage({ "newel.a": "1" }, new Error("quota"));
  assert.equal(keep([["me", "2"], ["a", "3"]], []), false);
  assert.deepEqual(kept(), [["a", "3"], ["me", "2"]]);
  assert.equal(keep([], ["a"]), false);
  assert.deepEqual(kept(), [["me", "2"]], "what could not be removed is gone for this page");
});

test("what fits again is stored, and the device's own entry counts", () => {
  storage({}, new Error("quota"));
  keep([["me", "2"]], []);
  storage({});
  assert.equal(keep([["me", "3"]], []), true);
  assert.deepEqual({ ...localStorage }, { "newel.me": "3" });
  localStorage.setItem("newel.me", "4"); // another window
  assert.deepEqual(kept(), [["me", "4"]]);
});

test("one entry that fails does not keep the others from being stored", () => {
  storage({});
  const { setItem } = Object.getPrototypeOf(localStorage);
  Object.getPrototypeOf(localStorage).setItem = function (key, value) {
    if (value.length > 3) throw new Error("quota");
    setItem.call(this, key, value);
  };
  assert.equal(keep([["big", "12345"], ["small", "1"]], []), false);
  assert.deepEqual({ ...localStorage }, { "newel.small": "1" });
  assert.deepEqual(kept(), [["big", "12345"], ["small", "1"]]);
});

test("blocked storage reads as empty, does not throw, and is made up for in memory", () => {
  Object.defineProperty(globalThis, "localStorage", { configurable: true, get() { throw new Error("denied"); } });
  assert.deepEqual(kept(), []);
  assert.equal(keep([["hand.abc", "77"]], []), false);
  assert.deepEqual(kept(), [["hand.abc", "77"]], "the next change comes from the same device number");
  assert.equal(keep([], []), false, "it is held still");
});

/** Storage that has no room for a value of more than room() letters. */
function narrow(room, entries = {}) {
  storage(entries);
  const { setItem } = Object.getPrototypeOf(localStorage);
  Object.getPrototypeOf(localStorage).setItem = function (key, value) {
    if (value.length > room()) throw new Error("quota");
    setItem.call(this, key, value);
  };
}

test("what is small and fits does not hide that a plan is not stored yet; it is tried again with each write", () => {
  let room = 3;
  narrow(() => room);
  assert.equal(keep([["plan.1", "12345"]], []), false);
  assert.equal(keep([["clock", "24"]], []), false);
  assert.deepEqual({ ...localStorage }, { "newel.clock": "24" });
  room = 9;
  assert.equal(keep([["clock", "12"], ["tab.text", "y"]], []), true);
  assert.deepEqual({ ...localStorage }, { "newel.clock": "12", "newel.plan.1": "12345" });
});

test("what goes makes room for what comes with it, and for what was held before", () => {
  narrow(() => (localStorage["newel.calendar.2.all"] === undefined ? 9 : 3), { "newel.calendar.2.all": "x" });
  assert.equal(keep([["plan.1", "12345"]], []), false);
  assert.equal(keep([["plan.2", "67890"]], ["calendar.2.all"]), true);
  assert.deepEqual({ ...localStorage }, { "newel.plan.1": "12345", "newel.plan.2": "67890" });
});

test("what is held hides nothing that another tab stores, but a plan only where the address has it as well", () => {
  storage({}, new Error("quota"));
  keep([["plan.1", "here"], ["plan.2", "left"], ["me.1", "Dana"], ["clock", "24"], ["tab.text", "y"]], []);
  storage({ "newel.plan.1": "there", "newel.plan.2": "there", "newel.clock": "12" }, new Error("quota"));
  for (const key of ["newel.plan.1", "newel.plan.2", "newel.clock", "newel.tab.text", "other.me.1"]) storedElsewhere(key, "there", "here");
  assert.deepEqual(kept(), [["clock", "12"], ["me.1", "Dana"], ["plan.1", "there"], ["plan.2", "left"], ["tab.text", "y"]]);
});

test("a plan that is held does not come back after another tab has removed it", () => {
  storage({}, new Error("quota"));
  keep([["plan.1", "here"], ["plan.2", "left"]], []);
  for (const key of ["newel.plan.1", "newel.plan.2"]) storedElsewhere(key, null, "here");
  storage({});
  assert.equal(keep([], []), true);
  assert.deepEqual({ ...localStorage }, {});
});

test("a plan that is held while another tab stored it otherwise waits until the core has joined both", () => {
  storage({}, new Error("quota"));
  keep([["plan.2", "left"]], []);
  storage({ "newel.plan.2": "there" });
  storedElsewhere("newel.plan.2", "there", "here");
  assert.equal(keep([["plan.1", "more"]], []), false);
  assert.deepEqual({ ...localStorage }, { "newel.plan.1": "more", "newel.plan.2": "there" });
  assert.equal(keep([["plan.2", "left+there"]], []), true);
  assert.equal(localStorage["newel.plan.2"], "left+there");
});

test("what stays is written before what it replaces goes; plans before all else, what calendars have last", () => {
  const order = [];
  storage({ "newel.other.1": "x" });
  Object.getPrototypeOf(localStorage).setItem = function setItem(key, value) { order.push(key); this[key] = value; };
  Object.getPrototypeOf(localStorage).removeItem = function removeItem(key) { order.push(`- ${key}`); delete this[key]; };
  assert.equal(keep([["calendar.1.all", "c"], ["read.1", "r"], ["plan.1", "p"]], ["other.1"]), true);
  assert.deepEqual(order, ["newel.plan.1", "newel.read.1", "newel.calendar.1.all", "- newel.other.1"]);
});
