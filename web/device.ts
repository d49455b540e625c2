// What this device is: its clock, zone, language and source of chance; and where the page is.

import { pageAddress } from "./address.js";
import { deviceLanguage } from "./language.js";
import type { Device } from "./request.js";

/** Looks at the device anew each time: people travel with the page open. */
export function device(): Device {
  return {
    page: pageAddress(),
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone ?? "UTC",
    language: deviceLanguage() ?? navigator.language,
    now: Math.floor(Date.now() / 1000),
    clock12: clock12(navigator.language),
    random: crypto.getRandomValues(new Uint8Array(16)),
  };
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
