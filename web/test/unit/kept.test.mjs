// Device storage: only our own prefix, bounded, and never an exception.

import assert from "node:assert/strict";
import { join } from "node:path";
import test, { afterEach, beforeEach } from "node:test";
import { compileShell } from "../compile.mjs";

const compiled = join(compileShell(), "kept.js");

// Each test gets the module as a page that was just opened has it.
let opened = 0;
let keep, kept;
beforeEach(async () => { ({ keep, kept } = await import(`${compiled}?${opened++}`)); });

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

test("at most 256 KiB go with a request", () => {
  storage({ "newel.a": "x".repeat(200 * 1024), "newel.b": "y".repeat(100 * 1024) });
  assert.deepEqual(kept().map(([key]) => key), ["a"]);
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
  assert.equal(keep([], []), true, "nothing to write is no failure");
});
