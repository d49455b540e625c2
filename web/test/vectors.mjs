// Reads testdata/exchange, the files that core/app/exchange_test.go walks as well.

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { top } from "./compile.mjs";

const known = ["expect", "message", "error", "pad", "source", "comment"];

/** Every vector: name, expect, message, error, bytes, pairs. */
export function exchangeVectors() {
  const folder = join(top, "testdata/exchange");
  return readdirSync(folder).filter((file) => file.endsWith(".txt"))
    .map((file) => parse(file.slice(0, -4), readFileSync(join(folder, file), "utf8")));
}

function parse(name, text) {
  const vector = { name, pairs: [] };
  let part = "header";
  let hex = "";
  for (const line of text.split("\n")) {
    if (line === "") continue;
    else if (line === "hex:" || line === "pairs:") part = line;
    else if (part === "hex:") hex += line;
    else if (part === "pairs:") vector.pairs.push(JSON.parse(`[${line.replace(/^("(?:[^"\\]|\\.)*") /, "$1,")}]`));
    else {
      const [, key, value] = /^(\w+): (.*)$/.exec(line) ?? [];
      // A misspelt "expect" must not turn a check off.
      if (!known.includes(key)) throw new Error(`${name}.txt has the unknown header line ${line}`);
      vector[key] = value;
    }
  }
  const bytes = Uint8Array.from(hex.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
  vector.bytes = new Uint8Array(Math.max(bytes.length, Number(vector.pad ?? 0)));
  vector.bytes.set(bytes);
  return vector;
}
