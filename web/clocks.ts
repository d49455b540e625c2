// The zone and the clock of this device. To open its words of zones and languages takes a browser
// longer than any other part of a question, so the first question leaves that to the worker.

/** Of a device: its IANA zone, and whether its language writes 1:30 pm. */
export interface Clocks {
  readonly zone: string;
  readonly clock12: boolean;
}

/** language is navigator.language. */
export function clocks(language: string): Clocks {
  return { zone: Intl.DateTimeFormat().resolvedOptions().timeZone ?? "UTC", clock12: clock12(language) };
}

// Some systems give a language that is no BCP 47 tag ("C" in WebKitGTK without a
// locale), on which Intl throws; the browser's own default stands in then.
function clock12(language: string): boolean {
  const cycle = (tag: string | undefined): string | undefined =>
    new Intl.DateTimeFormat(tag, { hour: "numeric" }).resolvedOptions().hourCycle;
  let found: string | undefined;
  try {
    found = cycle(language);
  } catch {
    found = cycle(undefined);
  }
  return found === "h11" || found === "h12";
}
