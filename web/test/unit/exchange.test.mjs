// The TypeScript side of the exchange, against the vectors that the Go side is checked by.

import assert from "node:assert/strict";
import { join } from "node:path";
import test from "node:test";
import { compileShell } from "../compile.mjs";
import { exchangeVectors } from "../vectors.mjs";

const shell = compileShell();
const { decode, encode, requestLimit } = await import(join(shell, "exchange.js"));
const { writeRequest } = await import(join(shell, "request.js"));
const { readResponse } = await import(join(shell, "response.js"));

const vectors = exchangeVectors();
const named = (name) => vectors.find((vector) => vector.name === name);

for (const { name, expect, message, error, bytes, pairs } of vectors) {
  test(`vector ${name}`, () => {
    // A request that only Go can find wrong is still a whole list of pairs here.
    if (expect === "ok" || message === "request") {
      const read = decode(bytes);
      if (expect === "ok") assert.deepEqual(read, pairs);
      assert.deepEqual(encode(read), bytes);
      return;
    }
    assert.equal(expect, "error");
    assert.throws(() => decode(bytes, requestLimit), (fault) => fault.message.includes(error));
  });
}

test("the vectors are there", () => assert.ok(vectors.length > 30));

test("a request is written as the Go side expects it", () => {
  const random = Uint8Array.from({ length: 16 }, (_, i) => i);
  const device = { page: "https://example.org/newel/", zone: "America/Chicago", language: "en-US", now: 1790000000, clock12: true, random };
  const fields = [["date", "2026-10-01"], ["can", "drive"], ["can", "cook"], ["note", ""]];
  const kept = [["language", "en"], ["plan.1", "x"]];
  assert.deepEqual(
    writeRequest({ path: "/facts", fragment: "AAEC-_", fields, folds: ["list-home", "far"] }, device, kept),
    named("request-whole").bytes,
  );
});

test("a request over 4 MiB is refused before it is sent", () => {
  const device = { page: "", zone: "UTC", language: "en", now: 0, clock12: false, random: new Uint8Array(16) };
  const write = (size) => writeRequest({ path: "/", fragment: "", fields: [["note", "x".repeat(size)]] }, device, []);
  const rest = write(0).length;
  assert.equal(write(requestLimit - rest).length, requestLimit);
  assert.throws(() => write(requestLimit - rest + 1), /4194305 bytes, more than 4 MiB/);
});

test("a response is read with every part", () => {
  assert.deepEqual(readResponse(named("response-whole").bytes), {
    title: "Sam’s day", html: '<h1 id="top">Leave by 4:10 am</h1>\n', language: "es", direction: "ltr", fragment: "AAEC", path: "/", push: true,
    say: "Saved.", focus: "top", keep: [["me", "2"], ["plan.1", "AAEC"]], drop: ["old"],
    send: { title: "A plan", text: "Open this:", fragment: "AAED", copy: true, alone: true },
    lock: { phrase: "three small words", fragment: "AAEC" }, unlock: { phrase: "drei kleine Wörter", fragment: "gAYB" },
    file: { name: "schedule.ics", type: "text/calendar", text: "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n" },
    again: { path: "/desk/rows", fields: [["made", "AAEC -"], ["text", "Däy\t\n"]] }, wipe: true, refresh: 60,
  });
});

test("a response without send, keep and drop has none", () => {
  const response = readResponse(named("response-bare").bytes);
  assert.equal(response.send, undefined);
  assert.deepEqual([response.file, response.lock, response.unlock, response.again], [undefined, undefined, undefined, undefined]);
  assert.deepEqual([response.keep, response.drop, response.push, response.refresh], [[], [], false, 0]);
});

test("a response that lacks a part says which", () => {
  assert.throws(() => readResponse(encode([["title", "x"]])), /lacks the key html/);
});

test("an unknown response key is passed over", () => {
  const bytes = encode([...named("response-bare").pairs, ["colour", "red"]]);
  assert.equal(readResponse(bytes).path, "/");
});

test("a message inside a larger buffer is read from its own start", () => {
  // Go hands over arrays of its own, but a view with an offset is legal all the same.
  const { bytes, pairs } = named("pairs-order");
  const larger = new Uint8Array(bytes.length + 9);
  larger.set(bytes, 5);
  assert.deepEqual(decode(larger.subarray(5, 5 + bytes.length)), pairs);
});
