// Loads a core (Go, as WebAssembly) and calls it.
//
// A worker (web/ahead) makes the module out of the file and answers the first question, so that the
// page stays alive meanwhile. Then the page starts the same module for itself: from there on a
// question is answered within the event that asked it, as browsers want it of what shares, copies
// or saves.

import "wasm_exec";
import { arrives, type Arrival } from "./arrival.js";
import { takeBegun, type Begun } from "./begun.js";
import { hasWorker, type CoreFile } from "./files.js";
import { keptOf } from "./kept.js";
import { Runner } from "./runner.js";
import type { Question } from "./request.js";

/** Sends a request's bytes and gives the response's. Throws when the core failed. */
export type Core = (request: Uint8Array) => Uint8Array;

/** What the worker does before the page does it: the first question, and what to do with its answer. */
export interface First {
  readonly question: () => Question;
  readonly request: (question: Question) => Uint8Array<ArrayBuffer>;
  /** had is what was kept of the question's plan when it was asked (keptOf). */
  readonly answered: (answer: Uint8Array, question: Question, had: string) => void;
}

/** Which of the two cores (web/whole.ts). */
export type Kind = "near" | "whole";

/** What runs now, to be started anew should its program die. */
let running: { readonly module: WebAssembly.Module; readonly kind: Kind } | undefined;

/**
 * Loads and starts a core; where the whole one has come before the near one, whoever waits for that gets the
 * whole one. Rejects if it cannot be loaded, with Unreachable where it is worth
 * another try. Before it is there, first is answered; where that fails, it is not, and the core
 * can be asked the same. made gets the module.
 */
export async function loadCore(file: CoreFile, kind: Kind, first?: First, made: (module: WebAssembly.Module) => void = () => {}): Promise<Core> {
  const early = takeBegun();
  const begun = early?.core === file.url ? early : undefined;
  if (early && !begun) new Runner(early).end(); // the address has another core than when the page began
  const runner = new Runner(begun);
  try {
    if (!begun) runner.say({ core: file.url, kept: hasWorker() });
    const module = await arrives(file.length, (arrival) => moduleOf(file, runner, arrival));
    made(module);
    if (first) await answered(runner, first, begun);
    await start(module, kind);
    prepareWhenIdle();
    return callCore;
  } finally {
    runner.end();
  }
}

async function start(module: WebAssembly.Module, kind: Kind): Promise<void> {
  const go = new Go();
  const instance = await WebAssembly.instantiate(module, go.importObject);
  // Each hangs itself on the same name. The near one waits for a frame before it starts, so the whole one may be
  // first; in its place, the near one would leave questions to it for ever. Looked at here, with nothing to wait
  // for between this and the start.
  if (kind === "near" && running?.kind === "whole") return;
  running = { module, kind };
  // run calls Go's main, which sets newelHandle before it waits for ever. Its promise
  // ends only when the program dies; the next call notices that.
  void Promise.resolve(go.run(instance)).catch((fault: unknown) => console.error(fault));
}

/** Starts the core anew, with a memory of its own, after it has failed: it may be dead, or its memory wrong. */
export async function restartCore(): Promise<Core> {
  if (!running) throw new Error("no core was loaded before");
  globalThis.newelHandle = undefined; // what is dead, and its memory, can go
  await start(running.module, running.kind);
  return callCore;
}

/** Has a worker answer a request that takes long, so that the page stays alive. Rejects where it cannot. */
export async function askAside(module: WebAssembly.Module, request: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
  const runner = new Runner();
  try {
    runner.say({ module });
    return await runner.ask(request);
  } finally {
    runner.end();
  }
}

/** begun has the question that is with the worker already. */
async function answered(runner: Runner, first: First, begun: Begun | undefined): Promise<void> {
  try {
    const question = begun?.asked ?? first.question();
    const had = begun?.had ?? keptOf(question.fragment);
    first.answered(await (begun ? runner.answer : runner.ask(first.request(question))), question, had);
  } catch (fault) {
    console.warn(fault); // the page asks the core itself, once it has one
  }
  await drawn();
}

/** Has the core do ahead, bit by bit, what else the first tap would wait for. */
function prepareWhenIdle(): void {
  const next = (deadline?: IdleDeadline): void => {
    do {
      if (globalThis.newelPrepare?.() !== false) return; // done, or the core has died
    } while ((deadline?.timeRemaining() ?? 0) > 5);
    prepareSoon();
  };
  // Safari has no requestIdleCallback.
  const prepareSoon = (): void => {
    if (window.requestIdleCallback) window.requestIdleCallback(next);
    else window.setTimeout(next, 50);
  };
  prepareSoon();
}

function callCore(request: Uint8Array): Uint8Array {
  // null: the core caught its own fault. undefined: it has died. Each is a failure.
  const response = globalThis.newelHandle?.(request);
  if (!response) throw new Error("the core gave no answer");
  return response;
}

/** How long after it, in milliseconds: what that frame has put off (web/patch.ts) comes first. */
const afterFrame = 150;

/** How long a frame is waited for, in milliseconds: one that is covered, or just left, draws none. */
const framePatience = 500;

/** Waits until the browser has drawn; not in a page that nobody sees, where nothing is drawn. */
function drawn(): Promise<void> {
  if (document.hidden) return Promise.resolve();
  return new Promise((resolve) => {
    requestAnimationFrame(() => setTimeout(resolve, afterFrame));
    setTimeout(resolve, framePatience);
  });
}

/** Gives the module that the worker makes of the file. */
async function moduleOf(file: CoreFile, runner: Runner, arrival: Arrival): Promise<WebAssembly.Module> {
  runner.listen(arrival);
  const module = await Promise.race([runner.module, runner.lost]);
  if (module) return module;
  // The page's service worker has the file, and in this browser it does not answer for workers; or it has lost it.
  const response = await fetch(file.url.replace(/\.press$/, ".wasm")).catch(() => undefined);
  if (response?.ok && response.body) void passOn(response.body, runner, arrival);
  else runner.say({ core: file.url, kept: false });
  return runner.module;
}

/** Hands the file to the worker as it comes. */
async function passOn(body: ReadableStream<Uint8Array<ArrayBuffer>>, runner: Runner, arrival: Arrival): Promise<void> {
  const reader = body.getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      arrival.came(value.length);
      runner.say({ piece: value }, [value.buffer]);
    }
    runner.say({ ends: true });
  } catch {
    runner.say({ breaks: true });
  }
}
