// What the page's first script (begin.ts) hands to its second one (main.ts).

import type { Heard } from "./ahead/said.js";
import type { Question } from "./request.js";

/** A worker that makes a core ready, and the first question, which is with it already. */
export interface Begun {
  /** The address of the core's file. */
  readonly core: string;
  readonly worker: Worker;
  /** What the worker has said so far. */
  readonly heard: Heard[];
  readonly asked: Question;
  /** What was kept of its plan, as keptOf has it. */
  readonly had: string;
}

declare global {
  var newelBegun: Begun | undefined;
}

/** Takes over what has begun. It can be taken once. */
export function takeBegun(): Begun | undefined {
  const begun = globalThis.newelBegun;
  globalThis.newelBegun = undefined;
  return begun;
}
