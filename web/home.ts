// The page on the device's home screen, and its storage kept from being cleared.

import { hasWorker } from "./files.js";
import { kept } from "./kept.js";

/** What browsers send that can put a page there by themselves (W3C Manifest Incubations, 2). */
interface InstallEvent extends Event {
  prompt(): Promise<unknown>;
}

const answerKey = "newel-home";
const refused = "no";

/** Offers it on the second visit, in one line that a person can send away for good. */
export function offerHome(): void {
  withPlanInAddress();
  window.addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault(); // else some browsers lay an offer of their own over the page
    if (again() && read() !== refused) offer(event as InstallEvent);
  });
  window.addEventListener("appinstalled", hide);
  document.addEventListener("submit", () => setTimeout(keepStorage), { once: true });
}

function box(): HTMLElement | null {
  return document.getElementById("home-offer");
}

function hide(): void {
  box()?.toggleAttribute("hidden", true);
}

function offer(event: InstallEvent): void {
  const line = box();
  if (!line) return;
  line.hidden = false;
  document.getElementById("home-no")?.addEventListener("click", () => {
    hide();
    write(refused);
  });
  document.getElementById("home-keep")?.addEventListener("click", () => {
    hide();
    event.prompt().catch((fault: unknown) => console.warn(fault)); // it was asked before
  });
}

/**
 * Whether this device has been here before, and has a plan: the worker was there when the page came.
 * Nothing is counted, since nothing is stored of somebody who only looks.
 */
function again(): boolean {
  return hasWorker() && kept().some(([key]) => key.startsWith("plan."));
}

function read(): string {
  try {
    return localStorage.getItem(answerKey) ?? "";
  } catch {
    return refused; // storage is blocked: what is kept on no device needs no icon
  }
}

function write(value: string): void {
  try {
    localStorage.setItem(answerKey, value);
  } catch {
    // The offer comes once more.
  }
}

/**
 * On iPhones what is on the home screen has a storage of its own, empty at first. Without a manifest it
 * opens the address from which it was put there, which holds the plan, and not the word for the last one.
 */
function withPlanInAddress(): void {
  if ("standalone" in navigator) document.querySelector('link[rel="manifest"]')?.remove();
}

/**
 * Asks the browser not to clear a plan away when room runs short (Storage Standard, 4). Only where it
 * decides by itself: Chromium's and Apple's, and not where the person would be asked.
 */
function keepStorage(): void {
  const silent = "onbeforeinstallprompt" in window || "GestureEvent" in window;
  if (!silent || !kept().some(([key]) => key.startsWith("plan."))) return;
  navigator.storage?.persist?.().catch((fault: unknown) => console.warn(fault));
}
