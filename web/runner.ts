// The worker that makes a core ready (web/ahead), seen from the page.

import type { Heard, Said } from "./ahead/said.js";
import type { Arrival } from "./arrival.js";
import type { Begun } from "./begun.js";
import { coreFiles } from "./files.js";
import { ownScript } from "./trusted.js";
import { Unreachable } from "./unreachable.js";

/** One worker. What it says comes as promises, each of which rejects where the worker fails before. */
export class Runner {
  readonly #worker: Worker;
  readonly #module = resolvers<WebAssembly.Module>();
  readonly #lost = resolvers<undefined>();
  readonly #answer = resolvers<Uint8Array>();
  #arrival: Arrival | undefined;
  #came = 0;
  #made = false;

  /** begun is a worker that works already. */
  constructor(begun?: Begun) {
    this.#worker = begun?.worker ?? new Worker(ownScript(coreFiles().ahead));
    for (const { promise } of [this.#module, this.#lost, this.#answer]) promise.catch(() => {}); // whoever waits for it is told
    for (const heard of begun?.heard ?? []) this.#heard(heard);
    this.#worker.addEventListener("message", ({ data }: MessageEvent<Heard>) => this.#heard(data));
    this.#worker.addEventListener("error", ({ message }) => this.#fails(new Error(`the core's worker failed: ${message}`)));
  }

  /** The module, as soon as it is made. */
  get module(): Promise<WebAssembly.Module> { return this.#module.promise; }

  /** Resolves where the service worker's copy of the file cannot be had. */
  get lost(): Promise<undefined> { return this.#lost.promise; }

  /** The answer to what was asked. */
  get answer(): Promise<Uint8Array> { return this.#answer.promise; }

  /** Asks, once in a worker's life; the answer comes when the core runs. */
  ask(request: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
    this.say({ request });
    return this.answer;
  }

  say(said: Said, handed: Transferable[] = []): void {
    this.#made ||= "module" in said;
    this.#worker.postMessage(said, handed);
  }

  /** Has arrival told of the file's bytes, those that have come before as well. */
  listen(arrival: Arrival): void {
    this.#arrival = arrival;
    if (this.#came > 0) arrival.came(this.#came);
  }

  /**
   * Ends the worker. Where it has made no module, it is left a while to give that up first: a Firefox whose worker
   * ends in the middle of compiling never compiles the next one's module (seen in 140).
   */
  end(): void {
    if (this.#made) this.#worker.terminate();
    else {
      this.say({ breaks: true });
      setTimeout(() => this.#worker.terminate(), 1000);
    }
  }

  #heard(heard: Heard): void {
    if ("came" in heard) {
      this.#came += heard.came;
      this.#arrival?.came(heard.came);
    } else if ("module" in heard) {
      this.#made = true;
      this.#module.resolve(heard.module);
    } else if ("lost" in heard) this.#lost.resolve(undefined);
    else if ("answer" in heard) this.#answer.resolve(heard.answer);
    else if ("unreachable" in heard) this.#fails(new Unreachable(heard.unreachable));
    else if ("fault" in heard) this.#fails(new Error(heard.fault));
  }

  #fails(fault: Error): void {
    for (const { reject } of [this.#module, this.#lost, this.#answer]) reject(fault);
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
