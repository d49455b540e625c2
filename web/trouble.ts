// The ready-made sentences for when something fails. They stand in the page's HTML, in
// the page's language; the shell only shows and hides them. Where the plan may be in danger the link
// to it is offered as a copy beside them: it is the address, so it needs no core.

import { readHead } from "./head.js";

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
  const shown = (one: string): boolean => box.querySelector(`p[data-why="${one}"]:not([hidden])`) !== null;
  for (const sentence of box.querySelectorAll<HTMLElement>(`p[data-why="${why}"]`)) sentence.hidden = !on;
  box.hidden = box.querySelector("p[data-why]:not([hidden])") === null;
  offerLink(shown("core") || shown("page") || shown("storage"));
}

/** Shows the button, where the address holds a plan; not what came of an earlier tap on it. */
function offerLink(needed: boolean): void {
  const line = document.getElementById("rescue");
  if (!line) return;
  const offered = needed && readHead(location.hash.slice(1)) !== undefined;
  if (offered && !line.hidden) return;
  line.hidden = !offered;
  for (const outcome of line.querySelectorAll<HTMLElement>("[data-came]")) outcome.hidden = true;
}

/** Listens for the button. Where the clipboard cannot be had, the link is shown, to be copied by hand. */
export function listenForRescue(): void {
  document.getElementById("rescue-copy")?.addEventListener("click", () => void copy());
}

async function copy(): Promise<void> {
  const line = document.getElementById("rescue");
  const field = line?.querySelector("input");
  if (!line || !field) return;
  const copied = await Promise.resolve(location.href).then((link) => navigator.clipboard.writeText(link)).then(() => true, () => false);
  for (const outcome of line.querySelectorAll<HTMLElement>("[data-came]")) outcome.hidden = (outcome.dataset["came"] === "copied") !== copied;
  if (copied) return;
  field.value = location.href;
  field.focus();
  field.select();
}
