// The address and the history. The fragment holds the whole plan; the entry's state
// holds the path, which screen of it is shown.

/** A place in the plan: which screen, and which plan. */
export interface Place {
  readonly path: string;
  readonly fragment: string;
}

/**
 * The page's own address, which a link to a plan begins with: without the fragment, and
 * without a query that somebody hung on on the way here.
 */
export function pageAddress(): string {
  return location.href.replace(/[?#].*$/s, "");
}

/** Where the browser is now. */
export function place(): Place {
  const state: unknown = history.state;
  const path = typeof state === "object" && state !== null && "path" in state ? state.path : undefined;
  return { path: typeof path === "string" ? path : "/", fragment: location.hash.slice(1) };
}

/** Whether two places are the same. */
export function same(a: Place, b: Place): boolean {
  return a.path === b.path && a.fragment === b.fragment;
}

/**
 * Writes a place into the address: a new entry if push, else over the present one. It
 * causes no event. Nothing is written where nothing changes, because Safari throws
 * after 100 writes in 30 seconds.
 */
export function write(next: Place, push: boolean): void {
  const state: unknown = history.state;
  if (state !== null && same(place(), next)) return;
  // An empty fragment takes the "#" away as well; "" alone would keep the old one.
  const url = next.fragment === "" ? location.pathname + location.search : `#${next.fragment}`;
  if (push) history.pushState({ path: next.path }, "", url);
  else history.replaceState({ path: next.path }, "", url);
}
