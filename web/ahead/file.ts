// The core's file on its way to the worker.

import { Unpresser } from "../unpress.js";
import { Unreachable } from "../unreachable.js";

/** After how many milliseconds the page is told again how much has come. */
const often = 100;

/** The module's bytes as they come out of a pressed file's pieces (build/press). */
export class Arriving {
  #out!: ReadableStreamDefaultController<Uint8Array<ArrayBuffer>>;
  readonly #unpresser = new Unpresser();

  /** For WebAssembly.compileStreaming. */
  readonly module = new Response(
    new ReadableStream<Uint8Array<ArrayBuffer>>({ start: (out) => { this.#out = out; } }),
    { headers: { "Content-Type": "application/wasm" } },
  );

  /** Pieces of a module that is not pressed go through as they are. Throws where the file is damaged. */
  piece(bytes: Uint8Array<ArrayBuffer>): void {
    for (const made of this.#unpresser.push(bytes)) this.#out.enqueue(made);
  }

  ends(): void {
    this.#unpresser.end();
    this.#out.close();
  }

  /**
   * The file breaks off. Firefox writes an error of its own of that; but where the stream stays open, or is
   * closed too early, it compiles no other module any more (tried in 140).
   */
  breaks(): void {
    this.#out.error(new Error("the file breaks off"));
  }
}

/** Fetches a pressed file into arriving. came is told of bytes, not at each of the many pieces. Rejects as Unreachable. */
export async function fetchInto(arriving: Arriving, url: string, came: (bytes: number) => void): Promise<void> {
  const response = await compressed(url).catch((fault: unknown) => {
    throw new Unreachable(`the core's file cannot be reached: ${String(fault)}`);
  });
  if (!response.ok || !response.body) throw new Error(`the core cannot be loaded: ${url} gave status ${response.status}`);
  const reader = response.body.getReader();
  let [untold, told] = [0, 0];
  for (;;) {
    const { done, value } = await reader.read().catch((fault: unknown) => {
      arriving.breaks();
      throw new Unreachable(`the core's file has not come whole: ${String(fault)}`);
    });
    untold += value?.length ?? 0;
    if (done || performance.now() - told >= often) {
      came(untold);
      [untold, told] = [0, performance.now()];
    }
    if (done) break;
    arriving.piece(value);
  }
  arriving.ends();
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
