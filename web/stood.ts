// The page as it stood: what the core said last of a plan, kept on this device, stands there at once
// when that plan is opened again, until the core's own answer takes its place. A line says what it is
// and as of when, for as long as it stands (the element with id "stood").
//
// It is shown only where the core would be asked the very same today: the same link, which is this
// device's own copy, in the same release, language, zone and clock, by the same helper, on the same day,
// and on the hospital's clock.
// It stores nothing, and marks nothing as read; that is left to the answer itself. What is tapped
// meanwhile waits for the core.

import { pageAddress, place, same } from "./address.js";
import { clocks, type Clocks } from "./clocks.js";
import { dayInWords, timeInWords } from "./first.js";
import { readHead } from "./head.js";
import { keepPage, kept, keptPage } from "./kept.js";
import { deviceLanguage, listenForWords, ownLanguage } from "./language.js";
import type { Response } from "./response.js";

/** What is kept beside the HTML. */
interface Head {
  /** What has to be as it was, see circumstances. */
  readonly when: string;
  /** When the core said it, in milliseconds since 1970-01-01 UTC. */
  readonly at: number;
  readonly title: string;
  readonly language: string;
  readonly direction: string;
}

/** How often the line is looked at again while it stands, in ms: it names the day as well once that is over. */
const often = 10_000;

/**
 * The page's sentence that this device's clock is not the hospital's (core/page/notices.go). A day of the plan then
 * ends at another hour than one of this wall, so the page might say "tomorrow" of what is today.
 */
const otherClock = ' id="notice-zone"';

/** What the core said last, when, and on which clocks. */
let last: { readonly response: Response; readonly at: number; readonly wall: Clocks } | undefined;

/** When the core said what stands there, while that is a page as it stood. */
let standsAt: number | undefined;

/** Takes note that the core's own answer is on the screen. The line goes. */
export function isUpToDate(response: Response): void {
  last = { response, at: Date.now(), wall: clocks(navigator.language) };
  standsAt = undefined;
  line()?.toggleAttribute("hidden", true);
}

/** Keeps the page for the next opening whenever it goes out of sight. */
export function keepAsItStands(): void {
  document.addEventListener("visibilitychange", () => { if (document.hidden) keepNow(); });
  window.addEventListener("pagehide", keepNow);
  listenForWords(() => fill());
}

function keepNow(): void {
  if (!last || !same(last.response, place()) || last.response.path !== "/") return;
  const { response: { html, title, language, direction, fragment }, at, wall } = last;
  if (html.includes(otherClock)) return;
  const when = circumstances(fragment, language, at, wall);
  if (when !== undefined) keepPage(`${JSON.stringify({ when, at, title, language, direction } satisfies Head)}\n${html}`);
}

/**
 * All that the core's page of a plan follows from beside the time of day; undefined where the plan is
 * not this device's own copy, or an example, which is no plan of this person's.
 */
function circumstances(fragment: string, language: string, at: number, wall: Clocks): string | undefined {
  const number = readHead(fragment)?.number.toString(16); // core/app/device.go, planKey
  if (number === undefined) return undefined;
  const all = new Map(kept({ fragment }));
  if (all.get(`plan.${number}`) !== fragment || all.has(`demo.${number}`)) return undefined;
  return JSON.stringify([
    release(), pageAddress(), fragment, language, deviceLanguage() ?? navigator.language, wall.zone, wall.clock12, dayOf(at),
    all.get("clock") ?? null, all.get(`me.${number}`) ?? null, // nobody's phone is not one that was not asked about
  ]);
}

const release = (): string => document.querySelector("script[data-version]")?.getAttribute("data-version") ?? "";

/** The day on this device's wall. */
function dayOf(at: number): string {
  const date = new Date(at);
  return [date.getFullYear(), date.getMonth() + 1, date.getDate()].join("-");
}

/**
 * The page as it stood, as if the core had said it; undefined where there is none for this address and
 * this hour, or where the core's own answer is there already. From now on the line says what stands there.
 */
export function asItStood(): Response | undefined {
  if (globalThis.newelBegun?.heard.some((heard) => "answer" in heard)) return undefined;
  const { path, fragment } = place();
  const text = path === "/" ? keptPage() : undefined;
  const head = text === undefined ? undefined : headOf(text);
  if (text === undefined || !head) return undefined;
  const { when, at, title, language, direction } = head;
  if (at > Date.now() || (ownLanguage() ?? language) !== language) return undefined;
  // A head that is not ours has no "when", and nor has a plan that is not kept here.
  if (typeof when !== "string" || when !== circumstances(fragment, language, Date.now(), clocks(navigator.language))) return undefined;
  standsAt = at;
  return {
    title, language, direction, fragment, path, html: text.slice(text.indexOf("\n") + 1), push: false, say: "", focus: "",
    keep: [], drop: [], send: undefined, lock: undefined, unlock: undefined, file: undefined, again: undefined, wipe: false, refresh: 0,
  };
}

function headOf(text: string): Head | undefined {
  try {
    return JSON.parse(text.slice(0, text.indexOf("\n"))) as Head;
  } catch {
    return undefined; // of another release, whose head is another one
  }
}

/** Whether what stands there is a page as it stood. */
export function stands(): boolean {
  return standsAt !== undefined;
}

/** Whether the browser will bring the page back to where it was read: that is a place in the whole of it. */
export function comesBack(): boolean {
  return performance.getEntriesByType("navigation").some((entry) => (entry as PerformanceNavigationTiming).type !== "navigate");
}

/** Shows the line, once the page is in. */
export function sayHowItStood(): void {
  fill();
  line()?.removeAttribute("hidden");
  const watch = window.setInterval(() => {
    if (stands()) fill();
    else window.clearInterval(watch);
  }, often);
  document.addEventListener("visibilitychange", () => fill()); // phones stop the timers of hidden pages
  window.addEventListener("beforeprint", () => fill(true));
  window.addEventListener("afterprint", () => fill());
}

/** Says that something was tapped, which waits. */
export function sayThatItWaits(): void {
  line()?.querySelector('[data-why="waits"]')?.removeAttribute("hidden");
}

/** Forgets the page, which could not be shown. Where some of it is on the screen, that still counts as how it stood. */
export function dropAsItStood(): void {
  keepPage(undefined);
  if (document.getElementById("first-line")) standsAt = undefined; // the static page is still there
}

function line(): HTMLElement | null {
  return document.getElementById("stood");
}

/** Says as of when it is; with the day where that is over, or asked for: paper is read later. */
function fill(withDay = false): void {
  const words = document.getElementById("stood-when");
  if (!words || standsAt === undefined) return;
  const at = new Date(standsAt);
  const sentence = withDay || dayOf(standsAt) !== dayOf(Date.now()) ? words.dataset["earlier"] : words.dataset["today"];
  const text = (sentence ?? "")
    .replace("{day}", dayInWords(new Date(Date.UTC(at.getFullYear(), at.getMonth(), at.getDate()))))
    .replace("{time}", timeInWords(60 * at.getHours() + at.getMinutes(), words.dataset).replaceAll(/\s/g, "\u00a0"))
    .replace(/\.\.$/, "."); // after "9:00 a. m."
  if (words.textContent !== text) words.textContent = text;
}
