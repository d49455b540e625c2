// Work that comes after the next frame: the browser has then drawn what the person has just done by
// itself, such as the mark in a box, which on a slow phone would else wait for the core.

/** How long a frame is waited for, in milliseconds: one that is covered draws none. */
const patience = 100;

const waiting = new Set<() => void>();
let atIt = false;

/** Does work once the browser has drawn; at once where nobody sees the page, or when it goes out of sight. */
export function soon(work: () => void): void {
  if (document.hidden) {
    work();
    return;
  }
  const once = (): void => work(); // its own, should the same work wait twice
  waiting.add(once);
  const due = (): void => {
    if (waiting.has(once)) workOff(once);
  };
  requestAnimationFrame(() => setTimeout(due));
  setTimeout(due, patience);
}

/** Does now what waits, in its order: something comes that must not be before it. */
export function soonNow(): void {
  workOff();
}

/**
 * Does what waits, in its order, up to last. Work that itself hurries what waits (a form that is sent)
 * hurries nothing: that comes after it.
 */
function workOff(last?: () => void): void {
  if (atIt) return;
  atIt = true;
  try {
    for (const work of waiting) {
      waiting.delete(work);
      work();
      if (work === last) break;
    }
  } finally {
    atIt = false;
  }
}

document.addEventListener("visibilitychange", () => { if (document.hidden) soonNow(); });
window.addEventListener("pagehide", soonNow);
