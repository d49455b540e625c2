// Handing a text and a link to the person's own sharing sheet; where there is none, to the
// clipboard; where that fails, into a field to copy from by hand.

import { pageAddress } from "./address.js";

/** A message to pass on. */
export interface Message {
  readonly title: string;
  readonly text: string;
  /** Of the link; "" is the page's own. */
  readonly fragment: string;
  /** To the clipboard, not to the sheet. */
  readonly copy: boolean;
}

/** Offers the message. Never throws: the link stays on the screen in the worst case. */
export async function send(message: Message): Promise<void> {
  const { title, text } = message;
  const url = `${pageAddress()}#${message.fragment === "" ? location.hash.slice(1) : message.fragment}`;
  if (!message.copy && typeof navigator.share === "function" && (await share({ title, text, url }))) return;
  try {
    await navigator.clipboard.writeText(text === "" ? url : `${text} ${url}`);
    unhide("[data-copied]");
  } catch {
    const field = unhide("[data-address]");
    if (!(field instanceof HTMLInputElement)) return;
    field.value = url;
    field.focus();
    field.select();
  }
}

async function share(data: ShareData): Promise<boolean> {
  try {
    await navigator.share(data);
    return true;
  } catch (fault) {
    // The person closed the sheet: that is an answer, so nothing else is tried.
    return fault instanceof DOMException && fault.name === "AbortError";
  }
}

function unhide(selector: string): Element | null {
  const element = document.querySelector(selector);
  element?.closest("[hidden]")?.removeAttribute("hidden");
  return element;
}
