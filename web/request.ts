// What goes to the core: what was asked for, and what this device is.

import type { Clocks } from "./clocks.js";
import { encode, type Pair, requestLimit } from "./exchange.js";

/** What was asked for: a screen, or a form that was sent. */
export interface Question {
  readonly path: string;
  /** The address's part after "#", without it. */
  readonly fragment: string;
  /** The form's entries in the order of the page; names may repeat. */
  readonly fields: readonly Pair[];
  /** The folds of the page whose inside is wanted (folds.ts); without it, of none. */
  readonly folds?: readonly string[];
}

/** What the core cannot look up for itself. */
export interface Device extends Clocks {
  /** The page's own address, without query and fragment. */
  readonly page: string;
  /** BCP 47 tag of the first language of the device that the page speaks. */
  readonly language: string;
  /** Whole seconds since 1970-01-01 UTC. */
  readonly now: number;
  /** 16 bytes from the secure source. */
  readonly random: Uint8Array;
}

/** Packs a request. Throws over requestLimit. */
export function writeRequest(question: Question, device: Device, kept: readonly Pair[]): Uint8Array<ArrayBuffer> {
  return encode(
    [
      ["path", question.path],
      ["fragment", question.fragment],
      ["page", device.page],
      ["zone", device.zone],
      ["language", device.language],
      ["now", String(device.now)],
      ["clock12", device.clock12 ? "1" : ""],
      ["random", Array.from(device.random, (byte) => byte.toString(16).padStart(2, "0")).join("")],
      ["folds", (question.folds ?? []).join(" ")],
      ...question.fields.map(([name, value]): Pair => [`field.${name}`, value]),
      ...kept.map(([key, value]): Pair => [`kept.${key}`, value]),
    ],
    requestLimit,
  );
}
