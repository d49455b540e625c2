// The ready-made sentences for when something fails. They stand in the page's HTML, in
// the page's language; the shell only shows and hides them.

/**
 * core: it failed or did not load. whole: the rest of it did not load. page: the answer could not be shown. storage: a write
 * failed. large: what was put in does not fit into a request.
 */
export type Why = "core" | "whole" | "page" | "storage" | "large";

/** Shows the sentence that applies. Everything else on the screen stays. */
export function trouble(why: Why): void {
  show(why, true);
  // What was too much was put in further down, and stays there; so does what was tapped in vain.
  if (why === "large" || why === "whole") document.getElementById("trouble")?.scrollIntoView({ block: "nearest" });
}

/** Takes the sentence away again: what failed works now. */
export function noTrouble(why: Why): void {
  show(why, false);
}

function show(why: Why, on: boolean): void {
  const box = document.getElementById("trouble");
  if (!box) return;
  for (const sentence of box.querySelectorAll<HTMLElement>(`[data-why="${why}"]`)) sentence.hidden = !on;
  box.hidden = box.querySelector("[data-why]:not([hidden])") === null;
}
