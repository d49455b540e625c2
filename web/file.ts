// Files: what the person chose goes to the core as text, what the core made goes to the
// person. Nothing is sent anywhere; the file is made on the device.

import type { Pair } from "./exchange.js";

/** What is read of a chosen file, in bytes; the core refuses anything over 256 KiB. */
const most = (256 << 10) + 1;

/** How long the address of a made file is kept: long enough to tap the link again. */
const lasts = 10 * 60 * 1000;

/** A file for the person: its name, its media type, its text. */
export interface Made {
  readonly name: string;
  readonly type: string;
  readonly text: string;
}

/** Whether somebody chose a file in the form. */
export function hasFile(form: HTMLFormElement): boolean {
  return chosen(form).length > 0;
}

/** Reads the chosen files as text. */
export async function readFiles(form: HTMLFormElement): Promise<Pair[]> {
  return Promise.all(chosen(form).map(async ([name, file]): Promise<Pair> => [name, text(await file.slice(0, most).arrayBuffer())]));
}

// Old systems still write Latin letters in one byte each; RFC 5545 3.1.4 wants UTF-8. Read
// so, a file is at most twice as long, and a request has room for it.
function text(bytes: ArrayBuffer): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

function chosen(form: HTMLFormElement): [string, File][] {
  return [...new FormData(form)].filter((entry): entry is [string, File] => entry[1] instanceof File && entry[1].size > 0);
}

/**
 * Hands a file over: the link for it on the page gets its address and is followed.
 * Where the browser does not follow it by itself, the person can tap it.
 */
export function handOver(file: Made): void {
  const address = URL.createObjectURL(new Blob([file.text], { type: file.type }));
  const link = document.querySelector("a[data-file]") ?? document.createElement("a");
  if (!(link instanceof HTMLAnchorElement)) return;
  link.href = address;
  link.download = file.name;
  link.closest("[hidden]")?.removeAttribute("hidden");
  link.click();
  setTimeout(() => {
    URL.revokeObjectURL(address);
    link.remove(); // it leads nowhere now
  }, lasts);
}
