// The first of the page's two scripts. It stands in the page itself (build/bundle/inline.go), so it
// runs before anything is drawn and before the other one (main.ts) has come. It begins what must not
// wait: the letters' size, which would move what is drawn, and the worker that makes the core ready,
// with the first question to it. After the first frame it shows the first line; before it, that would
// take as long as the whole frame does, for the browser's words of days and times.
//
// All of this main.ts does as well, where it comes first, or where this script may not run.

import { place } from "./address.js";
import type { Heard, Said } from "./ahead/said.js";
import { withoutClocks } from "./device.js";
import { coreFiles, hasWorker, needsWhole } from "./files.js";
import { firstLines, firstSteps } from "./firststeps.js";
import { kept } from "./kept.js";

function begin(): void {
  firstSteps();
  const { near, whole, ahead } = coreFiles();
  const core = needsWhole(location.hash.slice(1)) ? whole.url : near.url;
  const worker = new Worker(ahead);
  const say = (said: Said): void => worker.postMessage(said);
  const heard: Heard[] = [];
  worker.addEventListener("message", ({ data }: MessageEvent<Heard>) => heard.push(data));
  worker.addEventListener("error", ({ message }) => heard.push({ fault: message }));
  say({ core, kept: hasWorker() });
  const asked = { ...place(), fields: [] };
  say({ ask: { question: asked, device: withoutClocks(), kept: kept(asked), speaks: navigator.language } });
  globalThis.newelBegun = { core, worker, heard, asked, lines: false };
}

function drawn(): void {
  const begun = globalThis.newelBegun;
  if (!begun) return; // main.ts has taken over
  begun.lines = document.getElementById("waiting") !== null;
  if (begun.lines) firstLines();
  else afterFrame(drawn); // that part of the page has not come yet
}

function afterFrame(run: () => void): void {
  requestAnimationFrame(() => setTimeout(run));
}

try {
  begin();
} catch (fault) {
  console.warn(fault);
}
afterFrame(drawn);
