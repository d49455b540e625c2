// The first line: on which day and at what time, out of the link's head, while the core is
// still on its way. The core's page takes its place; if the core never comes, it stays.
//
// Where this device has the plan with another day or time than the link, both are shown:
// nobody can tell here which of the two is the later one.
//
// The page's HTML holds the sentences, with {day}, {time} and {what} where those go; this
// fills them in as core/guide writes days and times.

import { device } from "./device.js";
import { readHead, type Head } from "./head.js";
import { kept } from "./kept.js";

/** Fills the line in anew when the address gets another link, until the core's page is there. */
export function listenForFirst(): void {
  window.addEventListener("hashchange", fillFirst);
}

/** Fills the line in, which may have come anew with another language's page. */
export function fillFirst(): void {
  const line = document.getElementById("first-line");
  if (!line) return; // the core's page has come
  const head = readHead(location.hash.slice(1));
  line.hidden = head === undefined;
  if (!head) return;
  const here = planHere(head);
  line.classList.toggle("both", here !== undefined);
  line.textContent = here ? `${says("link", head, line.dataset)} ${says("here", here, line.dataset)}` : sentence(head, line.dataset);
}

/** The head of this device's own copy of the plan, where it has another day or time. */
function planHere(head: Head): Head | undefined {
  const key = `plan.${head.number.toString(16)}`; // core/app/device.go, planKey
  const here = readHead(kept({ fragment: location.hash.slice(1) }).find(([name]) => name === key)?.[1] ?? "");
  const same = here?.surgery.getTime() === head.surgery.getTime() && here.arrival === head.arrival;
  return same ? undefined : here;
}

const says = (who: "link" | "here", head: Head, words: DOMStringMap): string =>
  (words[who] ?? "").replace("{what}", sentence(head, words));

function sentence(head: Head, words: DOMStringMap): string {
  const past = dayNumber(head.surgery) < today();
  const key = past ? "past" : head.arrival === undefined ? "unknown" : "known";
  return (words[key] ?? "")
    .replace("{day}", dayInWords(head.surgery))
    .replace("{time}", head.arrival === undefined ? "" : timeInWords(head.arrival, words));
}

const dayNumber = (date: Date): number => Math.floor(date.getTime() / 86_400_000);

/** The day on this device's wall, as a number of days. */
function today(): number {
  const now = new Date();
  return dayNumber(new Date(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate())));
}

/** Writes a day, given as its midnight UTC: it has no zone, and is the same day wherever the reader is. */
export function dayInWords(day: Date): string {
  const year = day.getUTCFullYear() === new Date().getFullYear() ? undefined : "numeric";
  return write(day, { weekday: "long", month: "long", day: "numeric", year });
}

/** Writes a time, in minutes after midnight; words has what noon and midnight are called. */
export function timeInWords(minutes: number, words: DOMStringMap): string {
  const style = kept().find(([key]) => key === "clock")?.[1] ?? (device().clock12 ? "12" : "24");
  if (style === "12" && minutes % 720 === 0) return words[minutes === 0 ? "midnight" : "noon"] ?? "";
  const hourCycle = style === "12" ? "h12" : "h23";
  return write(new Date(minutes * 60_000), { hour: "numeric", minute: "2-digit", hourCycle });
}

function write(date: Date, format: Intl.DateTimeFormatOptions): string {
  return new Intl.DateTimeFormat(document.documentElement.lang, { ...format, timeZone: "UTC" }).format(date);
}
