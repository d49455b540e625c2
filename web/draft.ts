// What was typed into a form and not sent survives a reload and the way back: in the
// tab's own storage, for as long as the tab is open. A form that wants it has
// data-draft with a name of its own; another state of the plan has another name, so
// that an old draft never meets newer facts.

import type { Pair } from "./exchange.js";
import { ours } from "./kept.js";

const prefix = "newel-draft.";

/** Keeps what stands in the form, at each change. */
export function keepDraft(form: HTMLFormElement | null): void {
  const name = form?.dataset["draft"];
  if (!form || !name) return;
  const fields = [...new FormData(form)].filter((pair): pair is [string, string] => typeof pair[1] === "string");
  attempt(() => sessionStorage.setItem(prefix + name, JSON.stringify(fields)));
}

/** Forgets it: the form was answered, and the core's answer holds what was typed. */
export function dropDraft(form: HTMLFormElement): void {
  const name = form.dataset["draft"];
  if (name) attempt(() => sessionStorage.removeItem(prefix + name));
}

/** Puts the drafts of the forms on the screen back into them. */
export function restoreDrafts(app: HTMLElement): void {
  for (const form of app.querySelectorAll<HTMLFormElement>("form[data-draft]")) {
    const fields = read(prefix + (form.dataset["draft"] ?? ""));
    if (fields) fillIn(form, fields);
  }
}

function read(key: string): Pair[] | undefined {
  return attempt(() => JSON.parse(sessionStorage.getItem(key) ?? "null") as Pair[] | null) ?? undefined;
}

function fillIn(form: HTMLFormElement, fields: Pair[]): void {
  for (const control of form.querySelectorAll<HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement>("input, textarea, select")) {
    if (control.type === "hidden") continue;
    const values = fields.filter(([name]) => name === control.name).map(([, value]) => value);
    if ("checked" in control && (control.type === "checkbox" || control.type === "radio")) control.checked = values.includes(control.value);
    else if (values[0] !== undefined || !(control instanceof HTMLSelectElement)) control.value = values[0] ?? "";
  }
}

/** Storage may be turned off or full; a draft is a courtesy and no reason to fail. */
function attempt<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}

/** Forgets all of this tab's; false where the browser does not let go of some. */
export function dropDrafts(): boolean {
  const keys = (): string[] => Object.keys(sessionStorage).filter((key) => ours.test(key));
  return attempt(() => {
    for (const key of keys()) sessionStorage.removeItem(key);
    return keys().length === 0;
  }) ?? true; // it is blocked, so nothing could be put there
}
