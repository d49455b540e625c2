// In place of the worker where a host wants none any more (`go run ./build bundle --withdraw-worker`):
// removes what the earlier ones kept, and itself. Pages that stand open go on over the network.

export {}; // a module, whose "self" is its own
declare const self: ServiceWorkerGlobalScope;

async function withdraw(): Promise<void> {
  const mine = `newel ${self.registration.scope} `; // as in shelf.ts
  for (const name of await self.caches.keys()) if (name.startsWith(mine)) await self.caches.delete(name);
  await self.registration.unregister();
}

self.addEventListener("install", () => void self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(withdraw()));
