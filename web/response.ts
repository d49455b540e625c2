// What comes back from the core. core/app/request.go says what each part means.

import { decode, type Pair } from "./exchange.js";
import type { Made } from "./file.js";
import type { Message } from "./send.js";

/** A fragment to lock or to unlock, and the passphrase for it. */
export interface Phrased {
  readonly phrase: string;
  readonly fragment: string;
}

/** What is asked for next: a path, with fields as of a form. */
export interface Next {
  readonly path: string;
  readonly fields: readonly Pair[];
}

/** What to show and do. */
export interface Response {
  title: string;
  html: string;
  /** BCP 47 tag of what html says; direction is its "ltr" or "rtl". */
  language: string;
  direction: string;
  fragment: string;
  path: string;
  push: boolean;
  say: string;
  focus: string;
  keep: Pair[];
  drop: string[];
  send: Message | undefined;
  lock: Phrased | undefined;
  unlock: Phrased | undefined;
  file: Made | undefined;
  /** The next step of something long, to be asked for once this one is drawn. */
  again: Next | undefined;
  /** Seconds until the same path is asked for again; 0 is never. */
  /** Everything of this page is to be removed from the device. */
  wipe: boolean;
  refresh: number;
}

/**
 * Reads a response, or "elsewhere": this core has no answer, and the whole one has to be asked.
 * A key that this release does not know is passed over.
 */
export function readResponse(message: Uint8Array): Response | "elsewhere" {
  const pairs = decode(message);
  const single = new Map(pairs);
  if (single.get("elsewhere") === "1") return "elsewhere";
  const need = (key: string): string => {
    const value = single.get(key);
    if (value === undefined) throw new Error(`exchange: the response lacks the key ${key}`);
    return value;
  };
  const title = single.get("send.title");
  const text = single.get("send.text");
  const path = single.get("again.path");
  const [name, type, content] = ["file.name", "file.type", "file.text"].map((key) => single.get(key));
  return {
    title: need("title"),
    html: need("html"),
    language: need("language"),
    direction: need("direction"),
    fragment: need("fragment"),
    path: need("path"),
    push: need("push") === "1",
    say: need("say"),
    focus: need("focus"),
    keep: below("keep.", pairs),
    drop: below("drop.", pairs).map(([key]) => key),
    file: name === undefined || type === undefined || content === undefined ? undefined : { name, type, text: content },
    send: title === undefined || text === undefined ? undefined
      : { title, text, fragment: single.get("send.fragment") ?? "", copy: single.get("send.copy") === "1", alone: single.get("send.alone") === "1" },
    lock: phrased("lock", single),
    unlock: phrased("unlock", single),
    again: path === undefined ? undefined : { path, fields: below("again.field.", pairs) },
    wipe: single.get("wipe") === "1",
    refresh: Number(need("refresh")),
  };
}

function phrased(kind: string, single: ReadonlyMap<string, string>): Phrased | undefined {
  const phrase = single.get(`${kind}.phrase`);
  const fragment = single.get(`${kind}.fragment`);
  return phrase === undefined || fragment === undefined ? undefined : { phrase, fragment };
}

function below(prefix: string, pairs: readonly Pair[]): Pair[] {
  return pairs
    .filter(([key]) => key.startsWith(prefix))
    .map(([key, value]): Pair => [key.slice(prefix.length), value]);
}
