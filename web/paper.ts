// On paper nothing can be unfolded: the lists and what is kept up every day are opened
// for printing and folded again afterwards. Reasons stay folded unless the reader has
// opened them; all of them together are thirty pages.

/** Opens what paper needs while it is printed. */
export function unfoldForPaper(): void {
  let opened: HTMLDetailsElement[] = [];
  window.addEventListener("beforeprint", () => {
    opened = [...document.querySelectorAll<HTMLDetailsElement>("details.list:not([open]), details.daily:not([open]), details.overdue:not([open])")];
    for (const details of opened) details.open = true;
  });
  window.addEventListener("afterprint", () => {
    for (const details of opened) details.open = false;
  });
}
