// What a form holds when it is sent.

import type { Pair } from "./exchange.js";

/**
 * The fields of a form, in order. A date or time that the browser itself could not
 * read has no value at all; it goes out as "?", so that the core can say so instead
 * of asking for something that stands there. path is that of the screen now shown.
 */
export function fieldsOf(form: HTMLFormElement, submitter: HTMLElement | null, path: string): Pair[] {
  const fields = [...new FormData(form, submitter)].flatMap(([name, value]): Pair[] => {
    if (typeof value !== "string") return [];
    const control = form.elements.namedItem(name);
    const unreadable = control instanceof HTMLInputElement && control.validity.badInput;
    return [[name, unreadable ? "?" : value]];
  });
  // A form with data-here is about how a screen is shown, and wants the same one again.
  return form.hasAttribute("data-here") ? [...fields, ["at", path]] : fields;
}
