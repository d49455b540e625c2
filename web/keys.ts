// Keys that follow a link: <a data-key="ArrowRight">. They only add to what the link does by
// itself, and are let alone where somebody types, chooses or holds another key.

/** Follows the link of a key that is pressed. */
export function listenForKeys(app: HTMLElement): void {
  document.addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || event.isComposing) return;
    const { target } = event;
    if (target instanceof Element && target.closest("input, select, textarea, summary, [contenteditable]")) return;
    const link = [...app.querySelectorAll<HTMLAnchorElement>("a[data-key]")].find((a) => a.dataset["key"] === event.key);
    if (!link) return;
    event.preventDefault();
    link.click();
  });
}
