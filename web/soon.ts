// Work that comes after the next frame: the browser has then drawn what the person has just done by
// itself, such as the mark in a box, which on a slow phone would else wait for the core.

/** How long a frame is waited for, in milliseconds: one that is covered draws none. */
const patience = 100;

const waiting = new Set<() => void>();

/** Does work once the browser has drawn; at once where nobody sees the page, or when it goes out of sight. */
export function soon(work: () => void): void {
  if (document.hidden) {
    work();
    return;
  }
  const once = (): void => {
    if (waiting.delete(once)) work();
  };
  waiting.add(once);
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, patience);
}

/** Does now what waits, in its order: something comes that must not be before it. */
export function soonNow(): void {
  for (const work of waiting) work();
}

document.addEventListener("visibilitychange", () => { if (document.hidden) soonNow(); });
window.addEventListener("pagehide", soonNow);
