// Handing a text and a link to the person's own sharing sheet; where there is none, to the
// clipboard; where that fails, into a field to copy from by hand.

import { pageAddress } from "./address.js";
import { focusOn } from "./focus.js";
import { say } from "./say.js";

/** A message to pass on. */
export interface Message {
  readonly title: string;
  readonly text: string;
  /** Of the link; "" is the page's own. */
  readonly fragment: string;
  /** To the clipboard, not to the sheet. */
  readonly copy: boolean;
  /** The text goes as it is, without a link beside it. */
  readonly alone: boolean;
}

/** What came of it: closed is the sheet that the person closed, failed a clipboard that is not there. */
export type Outcome = "shared" | "copied" | "closed" | "failed";

/** Offers the message. Never throws. */
export async function send(message: Message): Promise<Outcome> {
  const { title, text, alone } = message;
  const url = addressOf(message);
  if (!message.copy && typeof navigator.share === "function") {
    const shared = await share(alone ? { title, text } : { title, text, url });
    if (shared !== "failed") return shared;
  }
  try {
    await navigator.clipboard.writeText(alone ? text : text === "" ? url : `${text} ${url}`);
    return "copied";
  } catch {
    return "failed";
  }
}

/** Shows on the page what came of it; where copying failed, the address, to copy by hand. */
export function showOutcome(message: Message, outcome: Outcome): void {
  if (outcome !== "failed") {
    unhide(`[data-${outcome}]`);
    return;
  }
  const failed = unhide("[data-failed]");
  if (failed instanceof HTMLElement) say(failed.innerText); // the focus goes to the text, not to this sentence
  const field = unhide(message.alone ? "[data-text]" : "[data-address]");
  if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement)) return;
  field.value = message.alone ? message.text : addressOf(message);
  focusOn(field.id); // which also opens a fold around it
  field.select();
}

function addressOf({ fragment }: Message): string {
  return `${pageAddress()}#${fragment === "" ? location.hash.slice(1) : fragment}`;
}

async function share(data: ShareData): Promise<Outcome> {
  try {
    await navigator.share(data);
    return "shared";
  } catch (fault) {
    // The person closed the sheet: that is an answer, so nothing else is tried.
    return fault instanceof DOMException && fault.name === "AbortError" ? "closed" : "failed";
  }
}

function unhide(selector: string): Element | null {
  const element = document.querySelector(selector);
  element?.closest("[hidden]")?.removeAttribute("hidden");
  return element;
}
