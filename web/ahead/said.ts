// What the page and the worker that makes a core ready (ahead.ts) say to each other.

import type { Clocks } from "../clocks.js";
import type { Pair } from "../exchange.js";
import type { Device, Question } from "../request.js";

/** A question before the device's clocks are known; speaks is navigator.language. */
export interface Ask {
  readonly question: Question;
  readonly device: Omit<Device, keyof Clocks>;
  readonly kept: readonly Pair[];
  readonly speaks: string;
}

/** What the page says. A request may come before the core runs: it is answered then. */
export type Said =
  | { readonly core: string; readonly kept: boolean } // fetch this file; kept: as the page's service worker has it
  | { readonly piece: Uint8Array<ArrayBuffer> } // of the file as the service worker has it, fetched by the page
  | { readonly ends: true } // the file was whole
  | { readonly breaks: true } // it was not, or nobody wants it any more
  | { readonly module: WebAssembly.Module } // made before, to be started here as well
  | { readonly ask: Ask } // the worker makes the request of it
  | { readonly request: Uint8Array<ArrayBuffer> };

/** What comes back. */
export type Heard =
  | { readonly up: true } // the worker runs, and asks for the file
  | { readonly came: number } // so many bytes of the file more
  | { readonly lost: true } // the file cannot be had as the service worker has it
  | { readonly unreachable: string } // nor over the network: there may be no signal
  | { readonly module: WebAssembly.Module }
  | { readonly answer: Uint8Array<ArrayBuffer> }
  | { readonly fault: string }; // anything else that went wrong
