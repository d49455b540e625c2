// The whole core. The one that came first (data-core) answers what a helper asks with a link on a
// phone, and says "elsewhere" to the rest; then this one is loaded, and from then on asked alone.

import { askAside, loadCore, type Core, type First } from "./core.js";
import { hasWorker, type CoreFile } from "./files.js";
import { say } from "./say.js";

/** Loads the whole core when it is asked for, or fetches its file when the line is idle. */
export class Whole {
  readonly #file: CoreFile;
  #loading: Promise<Core> | undefined;
  #fetched = false;
  #module: WebAssembly.Module | undefined;
  #runs = false;

  constructor(file: CoreFile) {
    this.#file = file;
  }

  /** Loads and starts it, once; after a failure it is tried again. Meanwhile the page says so. */
  async load(first?: First): Promise<Core> {
    this.#fetched = true;
    if (!first) waiting(true); // else the static page says that it waits
    this.#loading ??= loadCore(this.#file, "whole", first, (module) => { this.#module = module; });
    try {
      const core = await this.#loading;
      this.#runs = true;
      return core;
    } catch (fault) {
      this.#loading = undefined;
      throw fault;
    } finally {
      waiting(false);
    }
  }

  /** Has a worker answer what takes long, and says so on the page. Rejects where the core is not loaded. */
  async aside(request: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
    if (!this.#module) throw new Error("the whole core is not loaded");
    waiting(true, "working");
    try {
      return await askAside(this.#module, request);
    } finally {
      waiting(false, "working");
    }
  }

  /** Whether it is loaded, so that aside can be asked. */
  get here(): boolean {
    return this.#module !== undefined;
  }

  /** Whether it runs: from then on the page asks no other core, and what that leaves is left for good. */
  get runs(): boolean {
    return this.#runs;
  }

  /**
   * Has the browser fetch the file once nothing else is to be done, so that the day it is needed
   * it is there, also without a network. Not where somebody asks pages to be sparing.
   */
  fetchWhenIdle(): void {
    if (this.#fetched || sparing() || hasWorker()) return; // the worker keeps it without being asked
    this.#fetched = true;
    // Safari has no requestIdleCallback.
    const idle = window.requestIdleCallback ?? ((run: () => void): number => window.setTimeout(run, 2_000));
    idle(() => void this.#fetch());
  }

  async #fetch(): Promise<void> {
    if (this.#loading) return;
    try {
      const response = await fetch(this.#file.url, { priority: "low" });
      // Read to its end, since a file that is not is kept by no cache.
      await response.body?.pipeTo(new WritableStream());
    } catch { // the line went away; whoever needs it later is told
      this.#fetched = false;
    }
  }
}

function sparing(): boolean {
  const { connection } = navigator as { connection?: { saveData?: boolean } };
  return connection?.saveData === true;
}

function waiting(on: boolean, id = "fetching"): void {
  const line = document.getElementById(id);
  if (!line) return;
  line.hidden = !on;
  if (on) say(line.querySelector("[data-why]")?.textContent ?? "");
}
