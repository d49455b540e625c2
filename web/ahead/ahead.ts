// The worker that makes a core ready beside the page. It fetches the core's file, makes a module of it
// as that comes in, starts it, and answers the page's first question, all of which would hold the page
// still for seconds on a slow phone. The page then starts the same module for itself: what a browser
// has compiled of it by then it need not compile again. Later it answers what takes long.

import "wasm_exec";
import { clocks } from "../clocks.js";
import { writeRequest } from "../request.js";
import { Unreachable } from "../unreachable.js";
import { Arriving, fetchInto } from "./file.js";
import type { Ask, Heard, Said } from "./said.js";

declare const self: DedicatedWorkerGlobalScope;

const tell = (heard: Heard): void => self.postMessage(heard);
const failed = (fault: unknown): void => tell(fault instanceof Unreachable ? { unreachable: fault.message } : { fault: String(fault) });

/** The core runs; what was asked before waits for it. */
let started!: () => void;
const runs = new Promise<void>((resolve) => { started = resolve; });

let arriving: Arriving | undefined;

function heard(said: Said): void {
  if ("core" in said) fetched(said.core, said.kept).catch(failed);
  else if ("module" in said) run(said.module).catch(failed);
  else if ("ask" in said) ask(said.ask);
  else if ("request" in said) void runs.then(() => answer(said.request));
  else passed(said);
}

async function fetched(url: string, kept: boolean): Promise<void> {
  if (kept) await keptModule(url);
  else {
    arriving = new Arriving();
    const coming = fetchInto(arriving, url, (came) => tell({ came }));
    try {
      await Promise.all([start(arriving.module), coming]);
    } catch (fault) {
      await coming; // that the line broke is the reason why there is no module
      throw fault;
    }
  }
}

/** The module as the page's service worker keeps it. Not in every browser does that answer for workers. */
async function keptModule(url: string): Promise<void> {
  const response = await fetch(url.replace(/\.press$/, ".wasm")).catch(() => undefined);
  if (response?.ok && response.headers.get("content-type") === "application/wasm") await start(response);
  else tell({ lost: true });
}

/** The file as the page has fetched it, piece by piece; or the page wants no more of it. */
function passed(said: Extract<Said, { piece: unknown } | { ends: true } | { breaks: true }>): void {
  if ("breaks" in said) {
    arriving?.breaks();
    return;
  }
  if (!arriving) {
    arriving = new Arriving();
    start(arriving.module).catch(failed);
  }
  try {
    if ("piece" in said) arriving.piece(said.piece);
    else arriving.ends();
  } catch (fault) {
    failed(fault);
  }
}

async function start(file: Response): Promise<void> {
  const module = await WebAssembly.compileStreaming(file);
  tell({ module });
  await run(module);
}

async function run(module: WebAssembly.Module): Promise<void> {
  const go = new Go();
  const instance = await WebAssembly.instantiate(module, go.importObject);
  void go.run(instance);
  started();
}

function ask({ question, device, kept, speaks }: Ask): void {
  try {
    const request = writeRequest(question, { ...device, ...clocks(speaks) }, kept);
    void runs.then(() => answer(request));
  } catch (fault) {
    failed(fault);
  }
}

function answer(request: Uint8Array<ArrayBuffer>): void {
  // null: the core caught its own fault. undefined: it has died.
  const response = globalThis.newelHandle?.(request) as Uint8Array<ArrayBuffer> | null | undefined;
  if (response) self.postMessage({ answer: response } satisfies Heard, [response.buffer]);
  else failed("the core gave no answer");
}

self.addEventListener("message", (event: MessageEvent<Said>) => heard(event.data));
tell({ up: true });
