// Loads the core (Go, as WebAssembly) and calls it.

import "wasm_exec";
import { arrives, type Arrival } from "./arrival.js";
import { Unpresser } from "./unpress.js";

/** Sends a request's bytes and gives the response's. Throws when the core failed. */
export type Core = (request: Uint8Array) => Uint8Array;

/** A core's file: its address, and its length in bytes as it comes out of the browser's hands. */
export interface CoreFile {
  readonly url: string;
  readonly length: number;
}

/** The core's file did not come, or not whole: there may be no signal. Everything else that goes wrong stays wrong. */
export class Unreachable extends Error {}

/** Loads and starts the core. Rejects if it cannot be loaded, with Unreachable where it is worth another try. */
export async function loadCore(file: CoreFile): Promise<Core> {
  const go = new Go();
  const module = await arrives(file.length, (arrival) => compile(file.url, arrival));
  // Compiling and starting hold the page still; what has been found out by now is drawn first.
  await drawn();
  const instance = await WebAssembly.instantiate(module, go.importObject);
  // run calls Go's main, which sets newelHandle before it waits for ever. Its promise
  // ends only when the program dies; the next call notices that.
  void go.run(instance);
  return callCore;
}

function callCore(request: Uint8Array): Uint8Array {
  // null: the core caught its own fault. undefined: it has died. Each is a failure.
  const response = globalThis.newelHandle?.(request);
  if (!response) throw new Error("the core gave no answer");
  return response;
}

/** Waits until the browser has drawn; not in a page that nobody sees, where nothing is drawn. */
function drawn(): Promise<void> {
  if (document.hidden) return Promise.resolve();
  return new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
}

/** Compiles the core: as the page's worker keeps it, or else as it comes from the host, pressed. */
async function compile(url: string, arrival: Arrival): Promise<WebAssembly.Module> {
  if (hasWorker()) {
    try {
      return await WebAssembly.compileStreaming(fetch(url.replace(/\.press$/, ".wasm")));
    } catch (fault) {
      console.warn(fault); // a worker that is about to go, or has lost the file
    }
  }
  const response = await compressed(url).catch((fault: unknown) => {
    throw new Unreachable(`the core's file cannot be reached: ${String(fault)}`);
  });
  if (!response.ok || !response.body) throw new Error(`the core cannot be loaded: ${url} gave status ${response.status}`);
  return compilePressed(response.body, arrival);
}

/** Whether the page's worker answers for this page (web/worker). */
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

// Compiling begins with the first functions, while the last ones are on the way.
async function compilePressed(body: ReadableStream<Uint8Array<ArrayBuffer>>, arrival: Arrival): Promise<WebAssembly.Module> {
  const bytes = unpressed(body, arrival);
  const response = new Response(bytes, { headers: { "Content-Type": "application/wasm" } });
  try {
    return await WebAssembly.compileStreaming(response);
  } catch (fault) {
    if (arrival.whole()) throw fault;
    throw new Unreachable(`the core's file has not come whole: ${String(fault)}`); // engines give faults of their own for it
  }
}

function unpressed(body: ReadableStream<Uint8Array<ArrayBuffer>>, arrival: Arrival): ReadableStream<Uint8Array<ArrayBuffer>> {
  const reader = body.getReader();
  const unpresser = new Unpresser();
  return new ReadableStream({
    // A stream asks no more once it was given nothing, so there is no end without a piece.
    async pull(out): Promise<void> {
      for (;;) {
        const { done, value } = await reader.read();
        if (done) {
          arrival.ended();
          unpresser.end();
          out.close();
          return;
        }
        arrival.came(value.length);
        const pieces = unpresser.push(value);
        for (const piece of pieces) out.enqueue(piece);
        if (pieces.length > 0) return;
      }
    },
    cancel: (why) => reader.cancel(why),
  }, { highWaterMark: 4 });
}
