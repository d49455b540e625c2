// How a peer under Node talks: a question on each line of standard input, an answer on
// each line of standard output, both JSON. A question names what it asks for in "op".

import { readFileSync } from "node:fs";
import { createInterface } from "node:readline";

/** Answers every question with the function of that name, until the input ends. */
export async function serve(answers) {
  for await (const line of createInterface({ input: process.stdin })) {
    process.stdout.write(`${JSON.stringify(answer(answers, line))}\n`);
  }
}

function answer(answers, line) {
  try {
    const question = JSON.parse(line);
    return answers[question.op](question);
  } catch (fault) {
    // A library that throws is a finding, not the end of the run.
    return { fault: String(fault?.stack ?? fault) };
  }
}

/** The version of an npm package, as it was installed. */
export function version(name) {
  const file = new URL(`../../node_modules/${name}/package.json`, import.meta.url);
  return JSON.parse(readFileSync(file, "utf8")).version;
}

const warmUp = 300; // ms; the same as build/bench/timing
const stretch = 100; // ms

/** Times work as build/bench/timing does: milliseconds of one call, once for each round. */
export function rounds(count, work) {
  run(warmUp, work);
  return Array.from({ length: count }, () => run(stretch, work));
}

function run(long, work) {
  const start = performance.now();
  let calls = 0;
  let passed = 0;
  while (passed < long) {
    work();
    calls++;
    passed = performance.now() - start;
  }
  return passed / calls;
}
