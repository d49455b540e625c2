// Which language the page speaks on this device, and the static page in it.
//
// The build writes the static page once for each language. Each names all of them in its
// head: <link rel="alternate" hreflang="es" href="es.html">. Scripts or not, the one that
// came can be read; with scripts, the one in the person's own language takes its place
// while the core is on its way. What stands beside #app (the sentences of #trouble, the
// link that skips) is in no answer of the core, so it follows from here as well.

import { keep, kept } from "./kept.js";
import { pageHTML } from "./trusted.js";

/** What may follow a static page's address, where its language was tapped on purpose. */
const chosen = "?chosen";

/** Called when what stands beside #app is in another language. */
let heard = (): void => {};

/** Has run called whenever what stands beside #app is in another language. */
export function listenForWords(run: () => void): void {
  heard = run;
}

/** Called when another static page has taken the place of the one that came. */
type Swapped = () => void;

/**
 * The language to speak here: the one that was chosen on this device, else the first of the
 * device's own that the page speaks. Undefined where there is none.
 */
export function ownLanguage(): string | undefined {
  const spoken = alternates();
  const asked = kept().find(([key]) => key === "language")?.[1]; // core/app/device.go
  if (asked !== undefined && spoken.has(asked)) return asked;
  return deviceLanguage(spoken.has.bind(spoken))?.split("-")[0]?.toLowerCase();
}

/** The first of the device's languages that is spoken, as the device writes it: "es-MX". */
export function deviceLanguage(speaks: (language: string) => boolean = (l) => alternates().has(l)): string | undefined {
  return (navigator.languages ?? [navigator.language]).find((tag) => speaks(tag.split("-")[0]?.toLowerCase() ?? ""));
}

/** The static pages by language, as full addresses. */
function alternates(): Map<string, string> {
  const links = document.querySelectorAll<HTMLLinkElement>('head link[rel="alternate"][hreflang]');
  return new Map([...links].map((link) => [link.hreflang, link.href]));
}

/** Keeps the language of the page that came, where somebody tapped on it. */
export function keepChosen(): void {
  const { lang } = document.documentElement;
  if (location.search === chosen && alternates().has(lang)) keep([["language", lang]], []);
}

/**
 * Shows the static page in the person's language if it is another one, and listens for taps on
 * its links to other languages.
 */
export function speakOwnLanguage(swapped: Swapped): void {
  speak(ownLanguage() ?? document.documentElement.lang, swapped).catch(quietly);
  document.addEventListener("click", (event) => tapped(event, swapped));
  showLinks();
}

/** The links to other languages wait until a tap on them is listened for. */
function showLinks(): void {
  for (const links of document.querySelectorAll("[data-with-scripts]")) links.removeAttribute("hidden");
}

/** Says in which language and direction the page is now, and has what is beside #app follow. */
export function setLanguage(language: string, direction: string): void {
  const root = document.documentElement;
  // Even the same value makes browsers work out the style of the whole page anew.
  if (root.lang !== language) root.lang = language;
  if (root.dir !== direction) root.dir = direction;
  speak(language, () => undefined).catch(quietly);
}

// Offline, or a page that is gone: the sentences stay in the language they are in, and say so.
function quietly(fault: unknown): void {
  console.warn(fault);
}

/**
 * Has the address name the folder and no language: it is passed on, and whoever opens it has a
 * language of their own.
 */
export function folderAddress(): void {
  const here = location.origin + location.pathname;
  const named = !here.endsWith("/") && [...alternates().values()].includes(here);
  if (!named && location.search !== chosen) return;
  history.replaceState(history.state, "", `${new URL(".", here).pathname}${location.hash}`);
}

function tapped(event: MouseEvent, swapped: Swapped): void {
  const plain = event.button === 0 && !(event.metaKey || event.ctrlKey || event.shiftKey || event.altKey);
  if (!plain || !(event.target instanceof Element)) return;
  const link = event.target.closest<HTMLAnchorElement>(".languages a[hreflang]");
  if (!link) return;
  event.preventDefault();
  keep([["language", link.hreflang]], []);
  speak(link.hreflang, swapped).catch(() => location.assign(link.href + location.hash));
}

/** The language that was asked for last; of two that are on their way, the other comes too late. */
let wanted = "";

/** The pages that did not come; they are asked for again once a language is chosen. */
const missed = new Set<string>();

/** Puts the texts of a language's static page in place, where they are in another one. */
async function speak(language: string, swapped: Swapped): Promise<void> {
  if (language !== wanted) missed.clear();
  wanted = language;
  const address = alternates().get(language);
  if (address === undefined || missed.has(address) || document.getElementById("trouble")?.lang === language) return;
  const response = await fetch(address + ownVersion()).catch((fault: unknown) => {
    missed.add(address);
    throw fault;
  });
  if (!response.ok) throw new Error(`the page in "${language}" cannot be loaded: ${address} gave status ${response.status}`);
  const next = new DOMParser().parseFromString(pageHTML(await response.text()), "text/html");
  // In the meantime the core may have come, or another language been asked for.
  const standing = document.getElementById("first-line") !== null;
  if (wanted !== language) return;
  if (!standing && document.documentElement.lang !== language) return;
  besideApp(next);
  if (!standing) return;
  wholePage(next);
  swapped();
}

/**
 * Behind the address of another static page: the version of this one, so that the worker gives that
 * page of the same version (web/worker/shelf.ts). For a host it is the same address.
 */
function ownVersion(): string {
  const version = document.querySelector("script[data-version]")?.getAttribute("data-version");
  return version ? `?${version}` : "";
}

function besideApp(next: Document): void {
  const manifest = document.querySelector<HTMLLinkElement>('link[rel="manifest"]');
  if (manifest) manifest.href = next.querySelector<HTMLLinkElement>('link[rel="manifest"]')?.getAttribute("href") ?? manifest.href;
  for (const selector of [".skip", "#fetching", "#working", "#trouble", "#newer", "#stood", "#home-offer"]) {
    const now = document.querySelector<HTMLElement>(selector);
    const then = next.querySelector<HTMLElement>(selector);
    if (!now || !then) continue;
    now.lang = then.lang;
    now.dir = then.dir;
    if (selector === ".skip") now.textContent = then.textContent;
    else for (const sentence of now.querySelectorAll("[data-why]")) sentence.textContent = text(then, sentence);
    const bar = then.querySelector("progress")?.getAttribute("aria-label");
    if (bar) now.querySelector("progress")?.setAttribute("aria-label", bar);
    const part = then.querySelector<HTMLElement>("[data-of]")?.dataset["of"];
    if (part !== undefined) now.querySelector<HTMLElement>("[data-of]")?.setAttribute("data-of", part);
    if (selector === "#stood") Object.assign(now.querySelector<HTMLElement>("#stood-when")?.dataset ?? {}, then.querySelector<HTMLElement>("#stood-when")?.dataset);
  }
  heard();
}

/** The same sentence in another page. */
function text(box: HTMLElement, sentence: Element): string {
  return box.querySelector(`[data-why="${sentence.getAttribute("data-why")}"]`)?.textContent ?? "";
}

// Everything of the static page, while it still stands there. What is waited for, and
// whether, is said by the page that came.
function wholePage(next: Document): void {
  const app = document.getElementById("app");
  const nextApp = next.getElementById("app");
  if (!app || !nextApp) return;
  const waits = document.getElementById("waiting");
  const open = [...app.querySelectorAll("details[id][open]")].map(({ id }) => id);
  const focused = app.contains(document.activeElement) ? document.activeElement?.id : undefined;
  app.replaceChildren(...nextApp.childNodes);
  showLinks();
  for (const id of open) document.getElementById(id)?.setAttribute("open", "");
  const waiting = document.getElementById("waiting");
  if (waits) waiting?.toggleAttribute("hidden", waits.hidden !== false);
  else waiting?.remove();
  // The link that was tapped is gone; the way back stands in its place.
  if (focused !== undefined) (document.getElementById(focused) ?? app.querySelector<HTMLElement>(".languages a"))?.focus({ preventScroll: true });
  document.title = next.title;
  document.documentElement.lang = next.documentElement.lang;
  document.documentElement.dir = next.documentElement.dir;
}
