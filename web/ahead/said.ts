// What the page and the worker that makes a core ready (ahead.ts) say to each other.

/** What the page says. */
export type Said =
  | { readonly keptAt: string } // the page's service worker has the module under this address
  | { readonly piece: Uint8Array<ArrayBuffer> } // of the file as it is sent
  | { readonly ends: true } // the file was whole
  | { readonly breaks: true } // it was not
  | { readonly module: WebAssembly.Module } // made before, to be started here as well
  | { readonly request: Uint8Array<ArrayBuffer> };

/** What comes back: the module, that it runs, an answer, or what went wrong. */
export type Heard =
  | { readonly module: WebAssembly.Module }
  | { readonly runs: true }
  | { readonly answer: Uint8Array<ArrayBuffer> }
  | { readonly fault: string };
