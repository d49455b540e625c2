// Loads the core (Go, as WebAssembly) and calls it.

import "wasm_exec";

/** Sends a request's bytes and gives the response's. Throws when the core failed. */
export type Core = (request: Uint8Array) => Uint8Array;

/** Loads and starts the core. Rejects if it cannot be loaded. */
export async function loadCore(url: string): Promise<Core> {
  const go = new Go();
  const instance = await instantiate(url, go.importObject);
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

// Streaming compiles while the bytes arrive, but it refuses a wrong content type, and
// some engines lack it. The second way takes the bytes whole, from the browser's cache.
async function instantiate(url: string, imports: WebAssembly.Imports): Promise<WebAssembly.Instance> {
  try {
    return (await WebAssembly.instantiateStreaming(fetch(url), imports)).instance;
  } catch {
    const response = await fetch(url);
    if (!response.ok) throw new Error(`the core cannot be loaded: ${url} gave status ${response.status}`);
    return (await WebAssembly.instantiate(await response.arrayBuffer(), imports)).instance;
  }
}
