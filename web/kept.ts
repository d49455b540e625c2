// What the core keeps on this device: localStorage under one prefix.
//
// Storage may be turned off, full, or throw at every touch (private windows, blocked
// cookies). What could not be stored is held in memory for as long as the page is open:
// otherwise the core would take this device for a new one with each change. Writing still
// says that it failed, since nothing outlives the page then; nothing ever throws.

import type { Pair } from "./exchange.js";

const prefix = "newel.";

// UTF-16 units as a measure of bytes: right for ASCII, at most three times too low for
// the rest, and so always below the exchange's 1 MiB.
const most = 256 * 1024;

// What could not be stored, or not removed (undefined).
const held = new Map<string, string | undefined>();

// What calendar files held can be asked for again; a plan that falls out cannot.
const last = (key: string): number => (key.startsWith("calendar.") ? 1 : 0);

/** Everything kept, sorted by key and calendars last, as far as it fits into 256 KiB. */
export function kept(): Pair[] {
  const all = stored();
  for (const [key, value] of held) {
    if (value === undefined) all.delete(key);
    else all.set(key, value);
  }
  let room = most;
  return [...all]
    .sort(([a], [b]) => last(a) - last(b) || (a < b ? -1 : 1))
    .filter(([key, value]) => (room -= prefix.length + key.length + value.length) >= 0);
}

function stored(): Map<string, string> {
  try {
    return new Map(Object.keys(localStorage)
      .filter((key) => key.startsWith(prefix))
      .map((key) => [key.slice(prefix.length), localStorage.getItem(key) ?? ""]));
  } catch {
    return new Map();
  }
}

/** Stores and removes; false if any of it failed. */
export function keep(entries: readonly Pair[], drop: readonly string[]): boolean {
  const all = [...entries.map(([key, value]) => put(key, value)), ...drop.map((key) => put(key, undefined))];
  return all.every((done) => done);
}

function put(key: string, value: string | undefined): boolean {
  try {
    if (value === undefined) localStorage.removeItem(prefix + key);
    else localStorage.setItem(prefix + key, value);
    held.delete(key);
    return true;
  } catch {
    held.set(key, value);
    return false;
  }
}
