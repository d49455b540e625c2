// The worker that makes a core ready beside the page. It makes a module of the core's file as that
// comes in, starts it, and answers the page's first question, all of which would hold the page
// still for seconds on a slow phone. The page then starts the same module for itself: what a browser
// has compiled of it by then it need not compile again. Later it answers what takes long.

import "wasm_exec";
import { Unpresser } from "../unpress.js";
import type { Heard, Said } from "./said.js";

declare const self: DedicatedWorkerGlobalScope;

const tell = (heard: Heard): void => self.postMessage(heard);
const failed = (fault: unknown): void => tell({ fault: String(fault) });

let pieces: ReadableStreamDefaultController<Uint8Array<ArrayBuffer>>;
const unpresser = new Unpresser();

/** The module as it comes out of the pieces. */
function arriving(): Response {
  const stream = new ReadableStream<Uint8Array<ArrayBuffer>>({ start: (controller) => { pieces = controller; } });
  return new Response(stream, { headers: { "Content-Type": "application/wasm" } });
}

async function start(source: Response | Promise<Response>): Promise<void> {
  const module = await WebAssembly.compileStreaming(source);
  tell({ module });
  await run(module);
}

async function run(module: WebAssembly.Module): Promise<void> {
  const go = new Go();
  const instance = await WebAssembly.instantiate(module, go.importObject);
  void go.run(instance);
  tell({ runs: true });
}

function heard(said: Said): void {
  if ("keptAt" in said) start(fetch(said.keptAt)).catch(failed);
  else if ("module" in said) run(said.module).catch(failed);
  else if ("request" in said) answer(said.request);
  else file(said);
}

let begun = false;

/** The file, piece by piece. */
function file(said: Extract<Said, { piece: unknown } | { ends: true } | { breaks: true }>): void {
  if (!begun) {
    begun = true;
    start(arriving()).catch(failed);
  }
  try {
    if ("piece" in said) for (const made of unpresser.push(said.piece)) pieces.enqueue(made);
    else if ("breaks" in said) pieces.error(new Error("the file has not come whole"));
    else {
      unpresser.end();
      pieces.close();
    }
  } catch (fault) {
    pieces.error(fault);
  }
}

function answer(request: Uint8Array<ArrayBuffer>): void {
  // null: the core caught its own fault. undefined: it has died.
  const response = globalThis.newelHandle?.(request) as Uint8Array<ArrayBuffer> | null | undefined;
  if (response) self.postMessage({ answer: response } satisfies Heard, [response.buffer]);
  else failed("the core gave no answer");
}

self.addEventListener("message", (event: MessageEvent<Said>) => heard(event.data));
