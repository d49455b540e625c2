// What the core keeps on this device: localStorage under one prefix. Keys that begin with "tab."
// are held by the page alone and are gone with it: what a navigator puts in for patients is stored
// nowhere. While there are some, the browser asks before it leaves the page.
//
// Storage may be turned off, full, or throw at every touch (private windows, blocked
// cookies). What could not be stored is held in memory for as long as the page is open:
// otherwise the core would take this device for a new one with each change. Writing still
// says that it failed, since nothing outlives the page then; nothing ever throws.
//
// Beside that stands a copy of a page that the core has said (stood.ts). It goes to no core, and makes
// room for whatever else has to be stored.

import { type Pair, requestLimit } from "./exchange.js";
import { readHead } from "./head.js";
import type { Question } from "./request.js";

/** What the keys of the core begin with in this device's storage. */
export const dataPrefix = "newel.";

const pageKey = "newel-stood";

// In bytes: what a request needs beside the question and what is kept, and then some.
const reserve = 4096;

// In UTF-16 units: marks, numbers and names are shorter, links longer.
const short = 64;

// What could not be stored, or not removed (undefined).
const held = new Map<string, string | undefined>();

/**
 * Everything kept. What does not fit into the request beside the question comes with its
 * key and an empty value, so that the core writes nothing in place of what it has not seen.
 * The plan of the question's fragment goes first; calendar files can be made again and go last.
 */
export function kept({ fragment = "", fields = [] }: Partial<Question> = {}): Pair[] {
  const all = stored();
  for (const [key, value] of held) {
    if (value === undefined) all.delete(key);
    else all.set(key, value);
  }
  const plan = planOf(fragment);
  const keys = [...all.keys()].sort((a, b) => rank(a, all, plan) - rank(b, all, plan) || (a < b ? -1 : 1));
  let room = requestLimit - reserve - bytes(fragment)
    - bytes(fields.flat().join("")) - 16 * fields.length
    - bytes(keys.join("")) - 16 * keys.length;
  return keys.map((key) => {
    const value = all.get(key) ?? "";
    const size = bytes(value);
    if (size > room) return [key, ""];
    room -= size;
    return [key, value];
  });
}

/** As planKey in core/app writes it. */
const planOf = (fragment: string): string | undefined => readHead(fragment)?.number.toString(16);

/**
 * What is kept of the fragment's plan, as one text. Where it is another one by the time an answer comes,
 * that answer knows nothing of what another tab has stored meanwhile, and would be stored over it.
 */
export function keptOf(fragment: string): string {
  const plan = planOf(fragment);
  return JSON.stringify(kept({ fragment }).filter(([key]) => key.split(".")[1] === plan));
}

/** The order in which entries get room. Keys are KIND.PLAN or KIND.PLAN.MORE (core/app/device.go). */
function rank(key: string, all: ReadonlyMap<string, string>, plan: string | undefined): number {
  const [kind, number] = key.split(".");
  const inHand = number !== undefined && number === plan;
  if (kind === "calendar") return inHand ? 2 : 5;
  if (inHand) return 0;
  if ((all.get(key) ?? "").length <= short) return 1;
  return kind === "plan" ? 3 : 4;
}

const encoder = new TextEncoder();

const bytes = (text: string): number => encoder.encode(text).length;

/** Half of a letter, which has no UTF-8: two keys with one would be the same key to the core. */
const half = /[\ud800-\udfff]/u;

/**
 * What storage has for the core. A damaged entry must not stand in the way of all the others: one
 * without a value counts as none, since to the core it would be one that had no room. (Nobody's
 * phone has a name without letters, see keyMe in core/app/device.go.)
 */
function stored(): Map<string, string> {
  try {
    return new Map(Object.keys(localStorage)
      .filter((key) => key.startsWith(dataPrefix) && !ofPage(key.slice(dataPrefix.length)) && !half.test(key))
      .map((key): Pair => [key.slice(dataPrefix.length), localStorage.getItem(key) ?? ""])
      .filter(([key, value]) => value !== "" || key.startsWith("me.")));
  } catch {
    return new Map();
  }
}

const ofPage = (key: string): boolean => key.startsWith("tab.");

/** Has the browser ask before it leaves a page that holds what is stored nowhere. */
export function guardLeaving(): void {
  window.addEventListener("beforeunload", (event) => {
    if ([...held].some(([key, value]) => ofPage(key) && value !== undefined)) event.preventDefault();
  });
}

// Held plans that another tab has stored otherwise: the core has to see both before either is stored.
const apart = new Set<string>();

/**
 * Stores and removes, and tries once more what failed before; false while any of it is left. What stays is
 * written before what it replaces goes, since the tab may be closed between the two; and once more after it,
 * where there was no room before.
 */
export function keep(entries: readonly Pair[], drop: readonly string[]): boolean {
  for (const [key, value] of entries) held.set(key, value);
  for (const key of drop) held.set(key, undefined);
  for (const key of drop.filter(ofPage)) held.delete(key);
  for (const key of [...entries.map(([name]) => name), ...drop]) apart.delete(key);
  const left = [...held].filter(([key]) => !ofPage(key) && !apart.has(key));
  const writes = left.filter(([, value]) => value !== undefined).sort(([a], [b]) => urgency(a) - urgency(b));
  for (const [key, value] of writes) put(key, value);
  for (const [key, value] of left) if (value === undefined) put(key, value);
  for (const [key, value] of writes) if (held.has(key)) put(key, value);
  return [...held.keys()].every(ofPage);
}

/** In which order things are stored where there may not be room for all: plans first, what calendars have last. */
const urgency = (key: string): number => (key.startsWith("plan.") ? 0 : key.startsWith("calendar.") ? 2 : 1);

/**
 * Takes note that another tab has stored this key, or removed it (null), while this one's address has
 * fragment. What is held here would hide that, and be stored over it once there is room: the later one
 * counts, as where there is room. A plan that is held and not in the address as well stays held: it has what
 * was done here, and the core joins the other one only with what it can see. It is not stored until then.
 */
export function storedElsewhere(key: string, value: string | null, fragment: string): void {
  const name = key.slice(dataPrefix.length);
  if (!key.startsWith(dataPrefix) || ofPage(name)) return;
  if (value === null || !name.startsWith("plan.") || held.get(name) === fragment) held.delete(name);
  else if (held.has(name)) apart.add(name);
}

function put(key: string, value: string | undefined): boolean {
  if (value === undefined && key.startsWith("plan.")) keepPage(undefined); // it may be of that plan
  try {
    if (value === undefined) localStorage.removeItem(dataPrefix + key);
    else store(dataPrefix + key, value);
    held.delete(key);
    return true;
  } catch {
    held.set(key, value);
    return false;
  }
}

/** Stores, in the place of the page's copy where there is no other room. */
function store(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch (fault) {
    if (keptPage() === undefined) throw fault;
    keepPage(undefined);
    localStorage.setItem(key, value);
  }
}

/** The copy of a page, or undefined. */
export function keptPage(): string | undefined {
  try {
    return localStorage.getItem(pageKey) ?? undefined;
  } catch {
    return undefined;
  }
}

/** Keeps this copy of a page in place of the one before, or none: also where there is no room for it. */
export function keepPage(text: string | undefined): void {
  try {
    if (text === undefined) localStorage.removeItem(pageKey);
    else if (localStorage.getItem(pageKey) !== text) localStorage.setItem(pageKey, text);
  } catch {
    if (text !== undefined) keepPage(undefined); // the one before is of an earlier hour
  }
}

/** What the keys of anything of ours begin with, whatever page of ours wrote it. */
export const ours = /^newel[.-]/;

/** Removes all of it, also what is held in memory; false where the browser does not let go of some. */
export function wipeKept(): boolean {
  held.clear();
  try {
    const keys = (): string[] => Object.keys(localStorage).filter((key) => ours.test(key));
    for (const key of keys()) localStorage.removeItem(key);
    return keys().length === 0;
  } catch {
    return true; // storage is blocked, so nothing could be put there
  }
}
