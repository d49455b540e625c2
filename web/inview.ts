// What the person is looking at must not move when something above it changes. Engines
// differ in doing that by themselves (Safari does not), so style/base.css turns it off
// and this does it in all of them.

/** What was in view, and where. */
export interface Anchor {
  readonly id: string;
  readonly top: number;
}

export function firstInView(app: HTMLElement): Anchor | undefined {
  if (window.scrollY === 0) return undefined;
  for (const element of app.querySelectorAll<HTMLElement>(".post[id], .item[id], section[id], details[id]")) {
    const { top, bottom } = element.getBoundingClientRect();
    if (bottom > 0 && top >= 0) return { id: element.id, top };
  }
  return undefined;
}

export function keepInPlace(anchor: Anchor): void {
  const now = document.getElementById(anchor.id)?.getBoundingClientRect().top;
  if (now !== undefined && now !== anchor.top) window.scrollBy(0, now - anchor.top);
}
