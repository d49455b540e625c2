// Handing a text and the page's address to the person's own sharing sheet; where there
// is none, to the clipboard; where that fails, into a field to copy from by hand.

/** Offers the text. Never throws: the address stays on the screen in the worst case. */
export async function send(message: { title: string; text: string }): Promise<void> {
  const url = location.href;
  if (typeof navigator.share === "function" && (await share({ ...message, url }))) return;
  try {
    await navigator.clipboard.writeText(`${message.text} ${url}`);
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
