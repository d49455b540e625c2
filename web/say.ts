// The line for screen readers, the element with id "say" (role=status).

// A screen reader reads a status when its text changes. The same sentence twice is no
// change, so the text is taken away first and put back a moment later: in one step the
// browser would report nothing. 100 ms is common practice, with no published source.
const pause = 100;

let timer: number | undefined;

/** Has the text read politely; "" only clears. */
export function say(text: string): void {
  const line = document.getElementById("say");
  if (!line) return;
  window.clearTimeout(timer);
  line.textContent = "";
  if (text !== "") timer = window.setTimeout(() => { line.textContent = text; }, pause);
}
