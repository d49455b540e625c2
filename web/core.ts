// Loads a core (Go, as WebAssembly) and calls it.
//
// A worker (web/ahead) makes the module out of the file and answers the first question, so that the
// page stays alive meanwhile. Then the page starts the same module for itself: from there on a
// question is answered within the event that asked it, as browsers want it of what shares, copies
// or saves.

import "wasm_exec";
import type { Heard, Said } from "./ahead/said.js";
import { arrives, type Arrival } from "./arrival.js";

/** Sends a request's bytes and gives the response's. Throws when the core failed. */
export type Core = (request: Uint8Array) => Uint8Array;

/** A core's file: its address, and its length in bytes as it comes out of the browser's hands. */
export interface CoreFile {
  readonly url: string;
  readonly length: number;
}

/** The core's file did not come, or not whole: there may be no signal. Everything else that goes wrong stays wrong. */
export class Unreachable extends Error {}

/** What the worker does before the page does it: the first question, and what to do with its answer. */
export interface First {
  readonly question: () => Uint8Array<ArrayBuffer>;
  readonly answered: (answer: Uint8Array) => void;
}

/**
 * Loads and starts a core. Rejects if it cannot be loaded, with Unreachable where it is worth
 * another try. Before it is there, first is answered; where that fails, it is not, and the core
 * can be asked the same. made gets the module.
 */
export async function loadCore(file: CoreFile, first?: First, made: (module: WebAssembly.Module) => void = () => {}): Promise<Core> {
  const ahead = new Ahead();
  try {
    const module = await arrives(file.length, (arrival) => fetched(file.url, ahead, arrival));
    made(module);
    if (first) await answered(ahead, first);
    const go = new Go();
    const instance = await WebAssembly.instantiate(module, go.importObject);
    // run calls Go's main, which sets newelHandle before it waits for ever. Its promise
    // ends only when the program dies; the next call notices that.
    void go.run(instance);
    return callCore;
  } finally {
    ahead.end();
  }
}

/** Has a worker answer a request that takes long, so that the page stays alive. Rejects where it cannot. */
export async function askAside(module: WebAssembly.Module, request: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
  const ahead = new Ahead();
  try {
    ahead.say({ module });
    await ahead.runs;
    return await ahead.ask(request);
  } finally {
    ahead.end();
  }
}

async function answered(ahead: Ahead, first: First): Promise<void> {
  try {
    await ahead.runs;
    first.answered(await ahead.ask(first.question()));
  } catch (fault) {
    console.warn(fault); // the page asks the core itself, once it has one
  }
  await drawn();
}

function callCore(request: Uint8Array): Uint8Array {
  // null: the core caught its own fault. undefined: it has died. Each is a failure.
  const response = globalThis.newelHandle?.(request);
  if (!response) throw new Error("the core gave no answer");
  return response;
}

/** How long a frame is waited for, in milliseconds: one that is covered, or just left, draws none. */
const framePatience = 300;

/** Waits until the browser has drawn; not in a page that nobody sees, where nothing is drawn. */
function drawn(): Promise<void> {
  if (document.hidden) return Promise.resolve();
  return new Promise((resolve) => {
    requestAnimationFrame(() => setTimeout(resolve));
    setTimeout(resolve, framePatience);
  });
}

/** Gives the module: of the file as the page's service worker keeps it, or else as the host sends it. */
async function fetched(url: string, ahead: Ahead, arrival: Arrival): Promise<WebAssembly.Module> {
  if (hasWorker()) {
    const kept = url.replace(/\.press$/, ".wasm");
    ahead.say({ keptAt: kept });
    try {
      return await ahead.module;
    } catch (fault) {
      console.warn(fault); // in this browser the service worker does not answer for workers, or has lost the file
      ahead.again();
    }
    const response = await fetch(kept).catch(() => undefined);
    if (response?.ok && response.body) {
      await passOn(response.body, ahead, arrival);
      return ahead.module;
    }
  }
  const response = await compressed(url).catch((fault: unknown) => {
    throw new Unreachable(`the core's file cannot be reached: ${String(fault)}`);
  });
  if (!response.ok || !response.body) throw new Error(`the core cannot be loaded: ${url} gave status ${response.status}`);
  await passOn(response.body, ahead, arrival);
  return ahead.module;
}

/** Whether the page's service worker answers for this page (web/worker). */
export function hasWorker(): boolean {
  try {
    return Boolean(navigator.serviceWorker?.controller);
  } catch {
    return false; // a frame without an origin of its own
  }
}

/**
 * The file as it crosses the line with fewest bytes. Not every host compresses a kind of file that it
 * does not know; then the copy that the build has compressed is taken, where the browser can undo that.
 */
async function compressed(url: string): Promise<Response> {
  const leave = new AbortController();
  const response = await fetch(url, { signal: leave.signal });
  if (!response.ok || response.headers.has("content-encoding") || typeof DecompressionStream === "undefined") return response;
  const copy = await fetch(`${url}.gz`).catch(() => undefined);
  if (!copy?.ok || !copy.body) return response;
  leave.abort();
  if (copy.headers.has("content-encoding")) return copy; // the host has said what it is, and it is undone
  return new Response(copy.body.pipeThrough(new DecompressionStream("gzip")));
}

/** Hands the file to the worker as it comes. */
async function passOn(body: ReadableStream<Uint8Array<ArrayBuffer>>, ahead: Ahead, arrival: Arrival): Promise<void> {
  const reader = body.getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      arrival.came(value.length);
      ahead.say({ piece: value }, [value.buffer]);
    }
  } catch (fault) {
    ahead.say({ breaks: true });
    throw new Unreachable(`the core's file has not come whole: ${String(fault)}`);
  }
  ahead.say({ ends: true });
}

/** The worker, seen from the page. */
class Ahead {
  #worker!: Worker;
  #answer: Resolvers<Uint8Array> | undefined;
  module!: Promise<WebAssembly.Module>;
  runs!: Promise<void>;

  constructor() {
    this.again();
  }

  /** Begins with a new worker. */
  again(): void {
    this.#worker?.terminate();
    const worker = new Worker(address());
    const module = resolvers<WebAssembly.Module>();
    const runs = resolvers<void>();
    const fail = (fault: unknown): void => {
      for (const { reject } of [module, runs, ...(this.#answer ? [this.#answer] : [])]) reject(fault);
    };
    for (const { promise } of [module, runs]) promise.catch(() => {}); // whoever waits for it is told
    worker.addEventListener("message", ({ data }: MessageEvent<Heard>) => {
      if ("module" in data) module.resolve(data.module);
      else if ("runs" in data) runs.resolve();
      else if ("answer" in data) this.#answer?.resolve(data.answer);
      else fail(new Error(data.fault));
    });
    worker.addEventListener("error", (event) => fail(new Error(`the core's worker failed: ${event.message}`)));
    [this.#worker, this.module, this.runs] = [worker, module.promise, runs.promise];
  }

  say(said: Said, handed: Transferable[] = []): void {
    this.#worker.postMessage(said, handed);
  }

  ask(request: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
    this.#answer = resolvers<Uint8Array>();
    this.say({ request });
    return this.#answer.promise;
  }

  end(): void {
    this.#worker.terminate();
  }
}

interface Resolvers<T> {
  readonly promise: Promise<T>;
  readonly resolve: (value: T) => void;
  readonly reject: (reason: unknown) => void;
}

/** Promise.withResolvers, which browsers of before 2024 lack. */
function resolvers<T>(): Resolvers<T> {
  let resolve!: (value: T) => void;
  let reject!: (reason: unknown) => void;
  const promise = new Promise<T>((yes, no) => { [resolve, reject] = [yes, no]; });
  return { promise, resolve, reject };
}

/** The worker's file, which the page names beside its script. */
function address(): string {
  const name = document.querySelector<HTMLElement>("script[data-ahead]")?.dataset["ahead"];
  if (!name) throw new Error("the page lacks a script with data-ahead");
  return new URL(name, document.baseURI).href;
}
