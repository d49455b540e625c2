// Folds whose inside the core leaves out until they are opened (core/page/folds.go): most of a plan's
// page is in lists and far days that nobody looks at just now. The shell fills them: within the tap
// that opens one, and all of them for paper and for a jump to what is not on the page.

/** The folds whose inside is to be on the page: those that stand open, and those that have it already. */
export function wantedFolds(app: ParentNode): string[] {
  return folds(app, "details[data-fold]").filter((fold) => fold.open || fold.dataset["fold"] === "in").map(({ id }) => id);
}

/** The folds that have no inside. */
export function leftFolds(app: ParentNode): string[] {
  return folds(app, left).map(({ id }) => id);
}

/** Whether a fold stands open without its inside. */
export function openAndLeft(app: ParentNode): boolean {
  return app.querySelector(`${left}[open]`) !== null;
}

const left = 'details[data-fold="left"]';

function folds(app: ParentNode, selector: string): HTMLDetailsElement[] {
  return [...app.querySelectorAll<HTMLDetailsElement>(selector)];
}

/** Calls fill with a fold that is being opened and has no inside. */
export function listenForFolds(app: HTMLElement, fill: (id: string) => void): void {
  const listens = (fold: Element | null | undefined): void => {
    if (fold?.matches(left) && app.contains(fold)) fill(fold.id);
  };
  // Before it opens, so that it never stands open and empty.
  document.addEventListener("click", (event) => {
    if (event.target instanceof Element) listens(event.target.closest("summary")?.parentElement);
  });
  // What scripts open, and what was opened before the core was there. Such events do not bubble.
  document.addEventListener("toggle", ({ target }) => {
    if (target instanceof HTMLDetailsElement && target.open) listens(target);
  }, { capture: true });
}

let fillAll = (): void => {};

/** Says how all folds are filled at once. */
export function setFillAll(fill: () => void): void {
  fillAll = fill;
}

/** Has all folds of the page filled: at once, where the core is there. */
export function fillFolds(): void {
  if (document.querySelector(left)) fillAll();
}
