// Where a question to the core comes from. It decides what becomes of the focus, the page's place and its history.

/**
 * A form, a link to another screen, back and forward or an edited address, another act of the person,
 * the clock, a fold that is opened, the first answer over the page as it stood, or the step before of
 * something long.
 */
export type Cause = HTMLFormElement | "person" | "screen" | "history" | "clock" | "fold" | "over" | "again";

/** Whether it is the same screen once more, on which everything stays where it is. */
export function unasked(cause: Cause): boolean {
  return cause === "clock" || cause === "fold" || cause === "over";
}

/** Whether another screen comes up, to be read from its top. */
export function elsewhere(cause: Cause): boolean {
  return cause === "screen" || cause === "history";
}
