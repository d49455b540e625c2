// The first of the page's two scripts. It stands in the page itself (build/bundle/inline.go), so it
// runs before anything is drawn and before the other one (main.ts) has come. It begins what must not
// wait: the letters' size, which would move what is drawn, and the worker that makes the core ready,
// with the first question to it. After the first frame it shows the first line (drawn).
//
// All of this main.ts does as well, where it comes first, or where this script may not run.

import { place } from "./address.js";
import type { Heard, Said } from "./ahead/said.js";
import type { Begun } from "./begun.js";
import { withoutClocks } from "./device.js";
import { coreFiles, hasWorker, needsWhole } from "./files.js";
import { firstLines, firstSteps } from "./firststeps.js";
import { kept, keptOf } from "./kept.js";
import { ownScriptOfBegin } from "./trusted.js";

function begin(): Begun {
  firstSteps();
  const { near, whole, ahead } = coreFiles();
  const core = needsWhole(location.hash.slice(1)) ? whole.url : near.url;
  const worker = new Worker(ownScriptOfBegin(ahead));
  const say = (said: Said): void => worker.postMessage(said);
  const heard: Heard[] = [];
  worker.addEventListener("message", ({ data }: MessageEvent<Heard>) => heard.push(data));
  worker.addEventListener("error", ({ message }) => heard.push({ fault: message }));
  say({ core, kept: hasWorker() });
  const asked = { ...place(), fields: [] };
  say({ ask: { question: asked, device: withoutClocks(), kept: kept(asked), speaks: navigator.language } });
  const begun: Begun = { core, worker, heard, asked, had: keptOf(asked.fragment) };
  globalThis.newelBegun = begun;
  return begun;
}

/** How long after the first frame the first line waits for the worker, in ms. */
const patience = 200;

/**
 * Fills the lines in after the first frame, once the worker runs: a browser needs the page's thread to get one
 * going, and on a slow phone its words of days and times hold that for a third of a second.
 */
function drawn({ heard }: Begun): void {
  const since = performance.now();
  const lines = (): void => {
    const waits = heard.length === 0 && performance.now() - since < patience;
    if (waits || (document.readyState === "loading" && !document.getElementById("waiting"))) setTimeout(lines, 10);
    else if (document.getElementById("waiting")) firstLines(); // else the core's page has come
  };
  lines();
}

try {
  const begun = begin();
  requestAnimationFrame(() => setTimeout(() => drawn(begun)));
} catch (fault) {
  console.warn(fault);
}
