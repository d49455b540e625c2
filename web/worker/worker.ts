// The service worker: the page without a network, in one version at a time.
//
// A version is a list of files with their hashes, which the build writes before this code. The next
// one is fetched whole beside the one in use and waits until no page is open, or until somebody asks
// for it (web/offline.ts). It handles no update by itself: a page that stands open keeps its version.

import { Unpresser } from "../unpress.js";
import { Shelf, type Listed } from "./shelf.js";

declare const self: ServiceWorkerGlobalScope;
/** Of the build (build/bundle/worker.go). */
declare const newelVersion: string;
declare const newelFiles: readonly Listed[];

const shelf = new Shelf(self.registration.scope, newelVersion, newelFiles, {
  caches: self.caches,
  fetch: (request) => self.fetch(request),
  unpress(bytes): Blob {
    const unpresser = new Unpresser();
    const module = unpresser.push(bytes);
    unpresser.end();
    return new Blob(module);
  },
});

/** The person has asked the browser to load little (Network Information API; not in every browser). */
function sparing(): boolean {
  const { connection } = navigator as { connection?: { saveData?: boolean } };
  return connection?.saveData === true;
}

const pages = (): Promise<readonly Client[]> => self.clients.matchAll({ type: "window", includeUncontrolled: true });

const nextIsComing = (): boolean => self.registration.installing !== null || self.registration.waiting !== null;

async function activate(): Promise<void> {
  if ((await pages()).length === 0) await shelf.tidy(nextIsComing);
  // The page of the first visit has its later files from here as well.
  await self.clients.claim();
}

/** "gone": everything is being removed (web/offline.ts). "take": somebody asked for this version. A version's name: a page of it stands and is drawn. */
async function told(said: unknown): Promise<void> {
  if (said === "gone") shelf.close();
  if (said === "take") await self.skipWaiting();
  if (said === newelVersion && (await pages()).length === 1) await shelf.tidy(nextIsComing);
}

self.addEventListener("install", (event) => event.waitUntil(shelf.fill(sparing())));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => event.waitUntil(told(event.data)));
self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || request.headers.has("range")) return;
  const answer = shelf.answer(request.url, request.mode === "navigate");
  if (answer) event.respondWith(answer);
});
