// The files that the page's script names beside it, in the static HTML:
//   <script type="module" src="page-….js" data-core="core-….press" data-core-size="…" data-whole="…"
//    data-whole-size="…" data-ahead="ahead-….js">

/** A core's file: its address, and its length in bytes as it comes out of the browser's hands. */
export interface CoreFile {
  readonly url: string;
  readonly length: number;
}

/** The near core, the whole one, and the address of the worker that makes either ready. */
export interface CoreFiles {
  readonly near: CoreFile;
  readonly whole: CoreFile;
  readonly ahead: string;
}

/** Throws where the page does not name them. */
export function coreFiles(): CoreFiles {
  const { core, coreSize, whole, wholeSize, ahead } = document.querySelector<HTMLElement>("script[data-core]")?.dataset ?? {};
  if (!core || !whole || !ahead) throw new Error("the page lacks a script with data-core, data-whole and data-ahead");
  return { near: file(core, coreSize), whole: file(whole, wholeSize), ahead: address(ahead) };
}

const file = (name: string, length = ""): CoreFile => ({ url: address(name), length: Number(length) });

const address = (name: string): string => new URL(name, document.baseURI).href;

/** Whether the near core can do nothing with an address: the navigator's side, and the empty form. */
export function needsWhole(fragment: string): boolean {
  return /^(start|desk|said)(\.|$)/.test(fragment);
}

/** Whether the page's service worker answers for this page (web/worker). */
export function hasWorker(): boolean {
  try {
    return Boolean(navigator.serviceWorker?.controller);
  } catch {
    return false; // a frame without an origin of its own
  }
}
