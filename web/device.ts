// What this device is: its clock, zone, language and source of chance; and where the page is.

import { pageAddress } from "./address.js";
import { clocks, type Clocks } from "./clocks.js";
import { deviceLanguage } from "./language.js";
import type { Device } from "./request.js";

/** Looks at the device anew each time: people travel with the page open. */
export function device(): Device {
  return { ...withoutClocks(), ...clocks(navigator.language) };
}

/** The same without what takes long to find out. */
export function withoutClocks(): Omit<Device, keyof Clocks> {
  return {
    page: pageAddress(),
    language: deviceLanguage() ?? navigator.language,
    now: Math.floor(Date.now() / 1000),
    random: crypto.getRandomValues(new Uint8Array(16)),
  };
}
