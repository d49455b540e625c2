// Asking again by the clock: "what is next" changes while the page is open.

/**
 * Arranges the asking. again() asks for the present path; busy() says that the person
 * is in the middle of something. The function given back sets the time to the next
 * refresh in seconds, 0 for never.
 */
export function refreshing(again: () => void, busy: () => boolean): (seconds: number) => void {
  let timer: number | undefined;
  let every = 0;

  const start = (): void => {
    window.clearTimeout(timer);
    if (every > 0) timer = window.setTimeout(due, every * 1000);
  };
  const due = (): void => {
    // First, so that one failed answer does not end the asking for good.
    start();
    // A hidden page is looked at again when it is shown; see below.
    if (!busy() && !document.hidden) again();
  };
  const shown = (): void => {
    if (every > 0 && !document.hidden && !busy()) again();
  };

  // Phones stop timers of hidden pages, and bring a page back from memory as it was.
  document.addEventListener("visibilitychange", shown);
  window.addEventListener("pageshow", (event) => { if (event.persisted) shown(); });
  return (seconds) => {
    every = seconds;
    start();
  };
}
