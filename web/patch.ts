// Puts the core's new HTML into the page without disturbing the person.
//
// Two ways of patching:
//   unasked   a refresh by the clock: whatever the person has changed in a field and not
//             sent stays, tick marks and selections included.
//   answer    the person asked. The form that was sent shows the core's values, whatever
//             was typed; other forms on the same screen keep what is half typed. On a
//             change of screen everything is the core's.
// Always: the focus and the caret stay where they are, and a <details> that the person
// opened or closed stays so until the core itself says something new about it. For that
// a <details> needs an id, as does every row that may move and every control.
//
// The library is idiomorph 0.8.0. Measured against morphlex 1.4.0 (preserveChanges) in
// Chromium 156, Firefox 153 and WebKitGTK 2.50, the same in all three unless said:
//                                                        idiomorph       morphlex
//   one word changed in a list of 30 rows: DOM changes   1               363
//   list of 10, row 9 moved to the top: DOM changes      34              124
//   focus kept on that row's button, link or field       yes             not in WebKit
//   two attributes gone at once (aria-invalid, -described-by)  both gone  one stays
//   same HTML twice, DOM changes the second time         0               0
//   typed text, caret in mid-word, scroll position       kept            kept
//   other unsent fields (text, tick, select, textarea)   with the hook below  kept
//   opened <details>                                     neither; see below
// An attribute that stays would leave a mended field marked as wrong for screen readers,
// and 363 changes for one word make them read the list anew.
//
// What the core says again (blocks.ts) is left alone, unless something else than this file
// has changed it meanwhile: a watcher tells. On another screen, and in another language, there
// is nothing to keep, so the new page takes the old one's place.

import { Idiomorph } from "idiomorph";
import { Blocks, isStub, leftOver } from "./blocks.js";
import { firstInView, keepInPlace } from "./inview.js";
import { replace } from "./replace.js";
import { answerHTML } from "./trusted.js";

// The library moves nodes by moveBefore where there is one. Chromium 148 then hangs for ever
// in removing a part of the page: always when the link to the form of a duty is tapped on
// the duty's own page, from where the form takes its list of names. Without it nodes are
// taken out and put in, in all engines alike; the focus is put back below.
delete (Element.prototype as { moveBefore?: unknown }).moveBefore;

/** How to treat what the person changed and has not sent. */
export type Manner =
  | { readonly kind: "unasked" }
  | { readonly kind: "answer"; readonly sent: HTMLFormElement | undefined; readonly samePath: boolean };

/** What the core last said about each <details>, by id: open or not. */
const said = new Map<string, boolean>();

/** The last answer that was put in, and what changed in the page since then. */
let last: { readonly app: HTMLElement; readonly blocks: Blocks; readonly language: string; readonly watcher: MutationObserver } | undefined;

/** Makes the inside of app equal to html, whose links to the plan itself hold the fragment. */
export function patch(app: HTMLElement, html: string, manner: Manner, fragment = ""): void {
  const before = last?.app === app ? last : undefined;
  const touched = touchedSince(app, before?.watcher);
  const blocks = new Blocks(html, fragment);
  const decided = formsOfTheCore(app, manner);
  const unsent = new Set<Element>();
  for (const control of changedControls(app)) {
    if (decided.has(formOf(control))) touched.addAround(control);
    else unsent.add(control);
  }
  const { lang } = document.documentElement;
  const anew = manner.kind === "answer" && (!manner.samePath || (unsent.size === 0 && before?.language !== lang));
  const usable = (id: string): boolean => !touched.has(id) && app.contains(document.getElementById(id));
  if (!before || anew) put(app, blocks.whole(), manner, unsent, anew);
  else if (touched.size > 0 || !blocks.equals(before.blocks)) {
    put(app, blocks.against(before.blocks, usable), manner, unsent, false);
    if (leftOver(app)) put(app, blocks.whole(), manner, unsent, false);
  }
  blocks.relink(app, before?.blocks);
  last = { app, blocks, language: lang, watcher: before?.watcher ?? watch(app) };
  last.watcher.takeRecords(); // those are ours
}

function put(app: HTMLElement, html: string, manner: Manner, unsent: ReadonlySet<Element>, anew: boolean): void {
  const next = anew ? ownNodes(html) : inertNodes(html);
  const active = activeIn(app);
  carryDetails(app, next);
  const anchor = manner.kind === "answer" && !manner.samePath ? undefined : firstInView(app);
  if (active?.element.id) carryTabIndex(active.element, next);
  if (anew) replace(app, next, unwatched);
  else morph(app, next, unsent);
  if (active) restore(active);
  if (anchor) keepInPlace(anchor);
}

/** Nodes of this page: nodes of a template would have to be made over to it one by one. */
function ownNodes(html: string): ParentNode & Node {
  const holder = document.createElement("div");
  holder.innerHTML = answerHTML(html);
  return holder;
}

function inertNodes(html: string): ParentNode & Node {
  const template = document.createElement("template");
  template.innerHTML = answerHTML(html);
  return template.content;
}

function morph(app: HTMLElement, next: Node, unsent: ReadonlySet<Element>): void {
  Idiomorph.morph(app, next, {
    morphStyle: "innerHTML",
    restoreFocus: false, // restore also serves buttons and links
    callbacks: {
      beforeNodeMorphed: (_, node) => !isStub(node),
      beforeAttributeUpdated: (name, element) =>
        !(unsent.has(element) && (name === "value" || name === "checked" || name === "selected")),
    },
  });
}

function watch(app: HTMLElement): MutationObserver {
  const watcher = new MutationObserver((records) => noted.push(...records));
  watcher.observe(app, { subtree: true, childList: true, attributes: true, characterData: true });
  return watcher;
}

/** What the watcher of the page has told so far. */
let noted: MutationRecord[] = [];

/** Changes something that the core knows nothing of: it counts as unchanged. */
function unwatched(work: () => void): void {
  if (last) noted.push(...last.watcher.takeRecords());
  work();
  last?.watcher.takeRecords();
}

/** The ids of all elements in which something is not as the core said it. */
class Touched {
  readonly #ids = new Set<string>();
  #size = 0;

  /** How many changes there were, inside blocks or not. */
  get size(): number { return this.#size; }

  has(id: string): boolean { return this.#ids.has(id); }

  addAround(node: Node): void {
    this.#size++;
    for (let at: Node | null = node; at; at = at.parentNode) if (at instanceof Element && at.id) this.#ids.add(at.id);
  }
}

function touchedSince(app: HTMLElement, watcher: MutationObserver | undefined): Touched {
  const touched = new Touched();
  for (const { type, target, attributeName } of [...noted, ...(watcher?.takeRecords() ?? [])]) {
    // A fold that the person opened stays so where the core says nothing else about it.
    const folded = type === "attributes" && attributeName === "open";
    if (!folded && app.contains(target)) touched.addAround(target);
  }
  noted = [];
  return touched;
}

/** Forms whose fields are the core's to set; undefined stands for fields in no form. */
function formsOfTheCore(app: HTMLElement, manner: Manner): Set<HTMLFormElement | undefined> {
  if (manner.kind === "unasked") return new Set();
  if (manner.samePath && manner.sent) return new Set([manner.sent]);
  return new Set([undefined, ...app.querySelectorAll("form")]);
}

function formOf(control: Element): HTMLFormElement | undefined {
  if (control instanceof HTMLOptionElement) return control.closest("select")?.form ?? undefined;
  return (control as HTMLInputElement | HTMLTextAreaElement).form ?? undefined;
}

/** Inputs, text areas and options that differ from what the HTML says. */
function changedControls(app: HTMLElement): Element[] {
  return [...app.querySelectorAll("input, textarea, option")].filter((control) => {
    if (control instanceof HTMLOptionElement) return optionChanged(control);
    if (control instanceof HTMLTextAreaElement) return control.value !== control.defaultValue;
    return control instanceof HTMLInputElement
      && (control.value !== control.defaultValue || control.checked !== control.defaultChecked);
  });
}

// In a list with no option marked "selected" the browser itself selects the first:
// that is no change by the person.
function optionChanged(option: HTMLOptionElement): boolean {
  const select = option.closest("select");
  if (!select) return false;
  const options = [...select.options];
  const marked = options.some((other) => other.defaultSelected);
  const byDefault = marked || select.multiple ? option.defaultSelected : options[0] === option;
  return option.selected !== byDefault || options.some((other) => other.selected && !other.defaultSelected && marked);
}

/** Keeps the person's choice where the core repeats what it said before. */
function carryDetails(app: HTMLElement, next: ParentNode): void {
  for (const details of next.querySelectorAll<HTMLDetailsElement>("details[id]")) {
    if (isStub(details)) continue;
    const before = app.querySelector<HTMLDetailsElement>(`details[id="${CSS.escape(details.id)}"]`);
    const says = details.open;
    if (before && says === (said.get(details.id) ?? false)) details.open = before.open;
    said.set(details.id, says);
  }
}

// The shell makes a heading focusable to move the focus there (focus.ts). A patch that
// took the attribute away would throw the focus back to the top of the page.
function carryTabIndex(element: Element, next: ParentNode): void {
  const index = element.getAttribute("tabindex");
  const twin = next.querySelector(`[id="${CSS.escape(element.id)}"]`);
  if (index !== null && twin && !twin.hasAttribute("tabindex")) twin.setAttribute("tabindex", index);
}

interface Active {
  readonly element: HTMLElement;
  readonly selection: readonly [start: number, end: number] | undefined;
}

function activeIn(app: HTMLElement): Active | undefined {
  const element = document.activeElement;
  if (!(element instanceof HTMLElement) || !app.contains(element)) return undefined;
  const text = element instanceof HTMLInputElement || element instanceof HTMLTextAreaElement;
  // Date and number fields have no caret that can be read: null.
  const start = text ? element.selectionStart : null;
  const end = text ? element.selectionEnd : null;
  return { element, selection: start === null || end === null ? undefined : [start, end] };
}

// Moving a node takes the focus away. The id finds a control that had to be made anew.
function restore({ element, selection }: Active): void {
  const now = element.isConnected ? element : element.id ? document.getElementById(element.id) : null;
  if (!now) return;
  if (document.activeElement !== now) now.focus({ preventScroll: true });
  if (!selection || !(now instanceof HTMLInputElement || now instanceof HTMLTextAreaElement)) return;
  if (now.selectionStart === null || (now.selectionStart === selection[0] && now.selectionEnd === selection[1])) return;
  now.setSelectionRange(selection[0], selection[1]);
}
