// Go's own loader, GOROOT/lib/wasm/wasm_exec.js. It belongs to one exact Go version,
// so the build takes it from the Go that compiled the core; it is never copied here.

declare module "wasm_exec" {}

/** One Go program. run calls its main; the promise ends when the program does. */
declare class Go {
  importObject: WebAssembly.Imports;
  run(instance: WebAssembly.Instance): Promise<void>;
}

/** Set by wasm/bridge. Gives null when the core failed, undefined once it has died. */
declare var newelHandle: ((request: Uint8Array) => Uint8Array | null | undefined) | undefined;

/** Set by wasm/bridge. Does a little ahead of the first request; true when nothing is left to do. */
declare var newelPrepare: (() => boolean | undefined) | undefined;
