// The reader of a link's head, against the vectors that the Go side is checked by
// (core/link/heads_test.go).

import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import test from "node:test";
import { compileShell, top } from "../compile.mjs";

const { readHead } = await import(join(compileShell(), "head.js"));

const always = ["expect", "comment", "source", "fragment"];
const fields = ["version", "number", "surgery", "arrival", "stay", "joint", "operation", "part"];
const folder = join(top, "testdata/link/heads");
const vectors = readdirSync(folder).map((file) => ({ file, ...parse(file, readFileSync(join(folder, file), "utf8")) }));

function parse(file, text) {
  const pairs = text.replace(/\n$/, "").split("\n").map((line) => [line.slice(0, line.indexOf(": ")), line.slice(line.indexOf(": ") + 2)]);
  const vector = Object.fromEntries(pairs);
  const wanted = ["read", "newer"].includes(vector.expect) ? [...always, ...fields] : always;
  // A misspelt key must not turn a check off.
  assert.deepEqual(pairs.map(([key]) => key).sort(), [...wanted].sort(), `${file} has other keys than it should`);
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

test("the vectors are there", () => assert.ok(vectors.length > 30));

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
