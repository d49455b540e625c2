// The page's half of the pressed form, against build/press, which has both halves: the near core
// in pieces of every size, and what is damaged.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import test, { after } from "node:test";
import { compileShell, top } from "../compile.mjs";

const { Unpresser } = await import(join(compileShell(), "unpress.js"));

const folder = mkdtempSync(join(tmpdir(), "newel-press-"));
after(() => rmSync(folder, { recursive: true, force: true }));
execFileSync("go", ["run", "./build/press/sample", folder], { cwd: top, stdio: ["ignore", "inherit", "inherit"] });
const [pressed, module] = ["core.press", "core.wasm"].map((name) => new Uint8Array(readFileSync(join(folder, name))));

/** What comes out when the form arrives in pieces of these lengths, again and again. */
function unpress(form, lengths) {
  const unpresser = new Unpresser();
  const pieces = [];
  for (let at = 0, n = 0; at < form.length; n++) {
    const length = lengths[n % lengths.length];
    pieces.push(...unpresser.push(form.slice(at, at + length)));
    at += length;
  }
  unpresser.end();
  return Buffer.concat(pieces);
}

test("the core comes out as it went in, whole and in pieces of any length", () => {
  for (const lengths of [[pressed.length], [65_536], [1_000_003, 7], [16_384, 1, 250_000]]) {
    assert.ok(unpress(pressed, lengths).equals(module), `in pieces of ${lengths}`);
  }
});

test("pieces of one byte give the beginning as well", () => {
  const unpresser = new Unpresser();
  const made = [];
  for (let at = 0; at < 60_000; at++) made.push(...unpresser.push(pressed.slice(at, at + 1)));
  const beginning = Buffer.concat(made);
  assert.ok(beginning.length > 1000);
  assert.ok(beginning.equals(module.subarray(0, beginning.length)));
});

test("what comes out is a module that the engine takes, of the functions that Go wrote", () => {
  assert.ok(WebAssembly.validate(module));
  assert.ok(WebAssembly.validate(unpress(pressed, [300_000])));
});

test("a module as it was compiled goes through as it is", () => {
  assert.ok(unpress(module, [100_000]).equals(module));
});

test("a form that ends early, or is none, or says other lengths than it has, is refused", () => {
  assert.throws(() => unpress(pressed.slice(0, 300_000), [65_536]), /ends too early/);
  assert.throws(() => unpress(new TextEncoder().encode("<!doctype html>"), [5]), /not in the form/);
  assert.throws(() => unpress(new TextEncoder().encode("newel-3\n and more"), [5]), /not in the form/);
  let refused = 0;
  for (let n = 1; n <= 40; n++) {
    const damaged = pressed.slice();
    damaged[Math.floor((damaged.length * n) / 60)] ^= 0x55;
    try {
      if (!WebAssembly.validate(unpress(damaged, [damaged.length]))) refused++;
    } catch {
      refused++;
    }
  }
  // A changed constant is a sound module of other numbers; the worker's hash is what finds that.
  assert.ok(refused > 5, `${refused} of 40`);
});
