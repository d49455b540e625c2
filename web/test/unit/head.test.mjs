// The reader of a link's head, against the vectors that the Go side is checked by
// (core/link/heads_test.go).

import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import test from "node:test";
import { compileShell, top } from "../compile.mjs";

const { fromBase64url, readHead, toBase64url } = await import(join(compileShell(), "head.js"));

const always = ["expect", "comment", "source", "fragment"];
const fields = ["version", "number", "surgery", "arrival", "stay", "joint", "operation", "part"];
const folder = join(top, "testdata/link/heads");
const vectors = readdirSync(folder).map((file) => ({ file, ...parse(file, readFileSync(join(folder, file), "utf8")) }));

function parse(file, text) {
  const pairs = text.replace(/\n$/, "").split("\n").map((line) => [line.slice(0, line.indexOf(": ")), line.slice(line.indexOf(": ") + 2)]);
  const vector = Object.fromEntries(pairs);
  // A fragment with a letter that a line of a file cannot have.
  const keys = pairs.map(([key]) => (key === "quoted" ? "fragment" : key));
  if ("quoted" in vector) vector.fragment = JSON.parse(vector.quoted);
  const wanted = ["read", "newer"].includes(vector.expect) ? [...always, ...fields] : always;
  // A misspelt key must not turn a check off.
  assert.deepEqual(keys.sort(), [...wanted].sort(), `${file} has other keys than it should`);
  return vector;
}

/** HH:MM of minutes after midnight. */
const clock = (minutes) => [minutes / 60, minutes % 60].map((n) => String(Math.floor(n)).padStart(2, "0")).join(":");

for (const { file, expect, fragment, ...vector } of vectors) {
  test(`head ${file.slice(0, -4)}`, () => {
    const head = readHead(fragment);
    if (expect !== "read" && expect !== "newer") {
      assert.ok(["beyond", "locked", "older", "damaged"].includes(expect), `no check expects ${expect}`);
      assert.equal(head, undefined);
      return;
    }
    assert.deepEqual(
      { ...head, surgery: head.surgery.toISOString(), arrival: head.arrival === undefined ? "unknown" : clock(head.arrival) },
      {
        version: Number(vector.version), number: Number(vector.number), surgery: `${vector.surgery}T00:00:00.000Z`,
        arrival: vector.arrival, stay: Number(vector.stay),
      },
    );
  });
}

test("the vectors are there", () => assert.ok(vectors.length > 50));

// A head that stands on the screen and is wrong would send somebody to the hospital on
// another day. CRC-16 and CRC-24 find every change within 16 and 24 neighbouring bits;
// a character is 6 of them and two neighbours are 12.
for (const name of ["arrival-known.txt", "with-stamps.txt"]) {
  test(`no changed character and no swap of neighbours passes: ${name}`, () => {
    const { fragment } = vectors.find(({ file }) => file === name);
    const letters = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"];
    for (let at = 0; at < fragment.length; at++) {
      for (const letter of letters) {
        const changed = fragment.slice(0, at) + letter + fragment.slice(at + 1);
        if (changed !== fragment) assert.equal(readHead(changed), undefined, changed);
      }
      const swapped = fragment.slice(0, at) + (fragment[at + 1] ?? "") + fragment[at] + fragment.slice(at + 2);
      if (swapped !== fragment) assert.equal(readHead(swapped), undefined, swapped);
    }
  });
}

test("base64url is read in the one way in which it is written", () => {
  // RFC 4648 10, without the padding; and two that its section 5 writes with - and _.
  for (const [text, written] of [["", ""], ["f", "Zg"], ["fo", "Zm8"], ["foo", "Zm9v"], ["foob", "Zm9vYg"], ["fooba", "Zm9vYmE"],
    ["foobar", "Zm9vYmFy"], ["\xfb\xff", "-_8"]]) {
    const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    assert.equal(toBase64url(bytes), written);
    assert.deepEqual(fromBase64url(written), bytes);
  }
  for (const wrong of ["Zg==", "Zh", "Z", "Zm9vY", "Zm 9v", "Zm9v\n", "+/8", "Zm9v\u00ad", "Ｚｍ９ｖ", "A".repeat(16388)])
    assert.equal(fromBase64url(wrong), undefined, wrong.slice(0, 20));
  assert.ok(fromBase64url("A".repeat(16384)));
});

// A promise of the format: it stays simple enough to be read by forty lines of code.
test("the reader has at most forty lines, without comments and its type", () => {
  const text = readFileSync(join(top, "web/head.ts"), "utf8");
  const code = text.replace(/\/\*.*?\*\//gs, "").replace(/^export interface .*?^}/ms, "").split("\n");
  const lines = code.filter((line) => line.trim() !== "" && !line.trim().startsWith("//"));
  assert.ok(lines.length > 20 && lines.length <= 40, `${lines.length} lines`);
});
