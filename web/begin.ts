// The first of the page's two scripts. It stands in the page itself (build/bundle/inline.go), so it
// runs before anything is drawn and before the other one (main.ts) has come. It begins what must not
// wait: before the first frame the letters' size, which would move what is drawn, and the worker that
// makes the core ready; after it the first line, and the first question to that worker.
//
// The frame comes first because the words of languages and zones, which both need, take a browser as
// long to open as the whole frame does. All of this main.ts does as well, where it comes first, or
// where this script may not run.

import { place } from "./address.js";
import type { Heard, Said } from "./ahead/said.js";
import type { Begun } from "./begun.js";
import { device } from "./device.js";
import { coreFiles, hasWorker, needsWhole } from "./files.js";
import { firstLines, firstSteps } from "./firststeps.js";
import { kept } from "./kept.js";
import { writeRequest } from "./request.js";

function begin(): void {
  firstSteps();
  const { near, whole, ahead } = coreFiles();
  const worker = new Worker(ahead);
  const begun: Begun = { core: needsWhole(location.hash.slice(1)) ? whole.url : near.url, worker, heard: [], asked: undefined };
  worker.addEventListener("message", ({ data }: MessageEvent<Heard>) => begun.heard.push(data));
  worker.addEventListener("error", ({ message }) => begun.heard.push({ fault: message }));
  worker.postMessage({ core: begun.core, kept: hasWorker() } satisfies Said);
  globalThis.newelBegun = begun;
  requestAnimationFrame(() => setTimeout(drawn, 0, begun));
}

function drawn(begun: Begun): void {
  if (globalThis.newelBegun !== begun) return; // main.ts has taken over
  if (!document.getElementById("waiting")) { // nor has its part of the page come
    requestAnimationFrame(() => setTimeout(drawn, 0, begun));
    return;
  }
  firstLines();
  const asked = { ...place(), fields: [] };
  begun.worker.postMessage({ request: writeRequest(asked, device(), kept(asked)) } satisfies Said);
  begun.asked = asked;
}

try {
  begin();
} catch (fault) {
  console.warn(fault);
}
