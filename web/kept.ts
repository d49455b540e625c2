// What the core keeps on this device: localStorage under one prefix.
//
// Storage may be turned off, full, or throw at every touch (private windows, blocked
// cookies). Reading then finds nothing; writing says so; nothing ever throws.

import type { Pair } from "./exchange.js";

const prefix = "newel.";

// UTF-16 units as a measure of bytes: right for ASCII, at most three times too low for
// the rest, and so always below the exchange's 1 MiB.
const most = 256 * 1024;

// What calendar files held can be asked for again; a plan that falls out cannot.
const last = (key: string): number => (key.startsWith(`${prefix}calendar.`) ? 1 : 0);

/** Everything kept, sorted by key and calendars last, as far as it fits into 256 KiB. */
export function kept(): Pair[] {
  try {
    let room = most;
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(prefix))
      .sort((a, b) => last(a) - last(b) || (a < b ? -1 : 1))
      .map((key): Pair => [key.slice(prefix.length), localStorage.getItem(key) ?? ""])
      .filter(([key, value]) => (room -= key.length + value.length) >= 0);
  } catch {
    return [];
  }
}

/** Stores and removes; false if any of it failed. */
export function keep(entries: readonly Pair[], drop: readonly string[]): boolean {
  if (entries.length + drop.length === 0) return true;
  try {
    for (const [key, value] of entries) localStorage.setItem(prefix + key, value);
    for (const key of drop) localStorage.removeItem(prefix + key);
    return true;
  } catch {
    return false;
  }
}
