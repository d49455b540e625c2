// The page without a network: has the browser keep it (web/worker), and says when a newer version
// has come. A newer one is never taken while somebody is at the page, unless they press its button;
// else the browser takes it once no page is open any more.

import { say } from "./say.js";
import { ownScript } from "./trusted.js";

/** How long after the first answer the browser is asked, in ms: what the page itself loads comes first. */
const quiet = 2000;

/** How often a page that stands open for days asks for a newer version, in ms. */
const often = 3 * 3_600_000;

/** Everything was removed here; nothing is kept again before the page is opened anew. */
let unwanted = false;

/** Keeps the page for the next time, once all that this visit needs has come. Nothing depends on it. */
export async function keepOffline(): Promise<void> {
  await loaded();
  await idle();
  const workers = container();
  if (!workers || unwanted) return;
  try {
    // The browser asks the host for the worker itself, and for nothing else, at each opening.
    watch(workers, await workers.register(ownScript("worker.js"), { updateViaCache: "none" }));
  } catch (fault) {
    console.warn(fault); // a private window, or no room: the page goes on as it is
  }
}

function container(): ServiceWorkerContainer | undefined {
  try {
    return navigator.serviceWorker as ServiceWorkerContainer | undefined; // none on plain http
  } catch {
    return undefined; // a frame without an origin of its own
  }
}

async function loaded(): Promise<void> {
  if (document.readyState !== "complete") await new Promise((resolve) => window.addEventListener("load", resolve, { once: true }));
}

async function idle(): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, quiet));
  if ("requestIdleCallback" in window) await new Promise((resolve) => requestIdleCallback(resolve, { timeout: quiet }));
}

function watch(workers: ServiceWorkerContainer, registration: ServiceWorkerRegistration): void {
  document.getElementById("newer-take")?.addEventListener("click", () => take(workers, registration));
  // Versions that no page is of any more can go.
  const version = document.querySelector("script[data-version]")?.getAttribute("data-version");
  registration.active?.postMessage(version);
  if (registration.waiting && workers.controller) tell();
  if (registration.installing) follow(workers, registration.installing);
  registration.addEventListener("updatefound", () => follow(workers, registration.installing));
  askAgain(registration);
}

/** Tells of a version once it is there whole; of the very first one there is nothing to tell. */
function follow(workers: ServiceWorkerContainer, worker: ServiceWorker | null): void {
  worker?.addEventListener("statechange", () => {
    if (worker.state === "installed" && workers.controller) tell();
  });
}

/** Shows the sentence above the page, without moving what is being read. */
function tell(): void {
  const box = document.getElementById("newer");
  if (!box?.hidden) return;
  box.hidden = false;
  if (window.scrollY > 0) window.scrollBy({ top: box.offsetHeight, behavior: "instant" });
  say(box.querySelector("p")?.textContent ?? "");
}

function take(workers: ServiceWorkerContainer, registration: ServiceWorkerRegistration): void {
  const { waiting } = registration;
  if (!waiting) {
    location.reload(); // another of this person's pages has taken it already
    return;
  }
  workers.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage("take");
}

function askAgain(registration: ServiceWorkerRegistration): void {
  let asked = Date.now();
  document.addEventListener("visibilitychange", () => {
    if (document.hidden || Date.now() - asked < often) return;
    asked = Date.now();
    registration.update().catch((fault: unknown) => console.warn(fault)); // no network
  });
}

/**
 * Removes the page as it is kept: the worker, then its caches, since a worker at work would fill them
 * again. False where something of it stays. Caches of other pages on this host are left alone.
 */
export async function removeOffline(): Promise<boolean> {
  unwanted = true;
  try {
    const registration = await container()?.getRegistration();
    const scope = registration?.scope ?? new URL(".", location.href).href;
    const filling = registration?.installing;
    registration?.active?.postMessage("gone");
    await registration?.unregister();
    if (filling) await settled(filling);
    if (!("caches" in globalThis)) return true; // plain http
    const names = async (): Promise<string[]> => (await caches.keys()).filter((name) => name.startsWith(`newel ${scope} `)); // web/worker/shelf.ts
    for (const name of await names()) await caches.delete(name);
    return (await names()).length === 0;
  } catch (fault) {
    console.warn(fault);
    return fault instanceof DOMException && fault.name === "SecurityError"; // blocked: nothing could be put there
  }
}

/** Waits until a worker has stopped fetching. */
function settled(worker: ServiceWorker): Promise<void> {
  return new Promise((resolve) => {
    const look = (): void => { if (worker.state !== "installing") resolve(); };
    worker.addEventListener("statechange", look);
    setTimeout(resolve, 10_000); // a line that hangs must not hold up the rest
    look();
  });
}
