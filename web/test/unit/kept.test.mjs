// Device storage: only our own prefix, bounded, and never an exception.

import assert from "node:assert/strict";
import { join } from "node:path";
import test, { afterEach } from "node:test";
import { compileShell } from "../compile.mjs";

const { keep, kept } = await import(join(compileShell(), "kept.js"));

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

test("full storage says so and does not throw", () => {
  storage({}, new Error("quota"));
  assert.equal(keep([["me", "2"]], []), false);
});

test("blocked storage reads as empty and does not throw", () => {
  Object.defineProperty(globalThis, "localStorage", { configurable: true, get() { throw new Error("denied"); } });
  assert.deepEqual(kept(), []);
  assert.equal(keep([["me", "2"]], []), false);
  assert.equal(keep([], []), true, "nothing to write is no failure");
});
