// The page's one script. The static HTML names the core's file beside it:
//   <script type="module" src="main-….js" data-core="core-….press" data-whole="whole-….press">

import { stalled } from "./arrival.js";
import { loadCore, Unreachable, type Core, type CoreFile, type First } from "./core.js";
import { fillFirst, showFirst } from "./first.js";
import { offerHome } from "./home.js";
import { listenForJumps } from "./jumps.js";
import { guardLeaving } from "./kept.js";
import { listenForKeys } from "./keys.js";
import { speakOwnLanguage } from "./language.js";
import { noteLast, openLast } from "./last.js";
import { keepOffline } from "./offline.js";
import { listenForPrint, unfoldForPaper } from "./paper.js";
import { startShell } from "./shell.js";
import { trouble } from "./trouble.js";
import { listenForType } from "./type.js";
import { needsWhole, Whole } from "./whole.js";

async function main(): Promise<void> {
  listenForType(); // first: what is drawn in another size would move
  listenForJumps();
  unfoldForPaper();
  listenForPrint();
  const app = document.getElementById("app");
  const { core, coreSize, whole, wholeSize } = document.querySelector<HTMLElement>("script[data-core]")?.dataset ?? {};
  if (!app || !core || !whole) throw new Error("the page lacks #app or a script with data-core and data-whole");
  // Hidden in the page itself, so that nobody is told to wait where scripts are off.
  document.getElementById("waiting")?.removeAttribute("hidden");
  openLast();
  showFirst();
  speakOwnLanguage(fillFirst);
  listenForKeys(app);
  offerHome();
  guardLeaving();
  const rest = new Whole(file(whole, wholeSize));
  const loads = (first: First): Promise<Core> => untilReached(() => (
    needsWhole(location.hash.slice(1)) ? rest.load(first) : loadCore(file(core, coreSize), first)));
  await startShell(app, loads, rest);
  noteLast();
  void keepOffline();
}

/** Tries until there is a signal. What the page can say without the core stands there meanwhile. */
async function untilReached(load: () => Promise<Core>): Promise<Core> {
  for (;;) {
    try {
      return await load();
    } catch (fault) {
      if (!(fault instanceof Unreachable)) throw fault;
      console.warn(fault);
      stalled(true);
      await signal();
      stalled(false);
    }
  }
}

/** Waits until the device says that it has a network again, or for a while: it is not always right. */
function signal(): Promise<void> {
  return new Promise((resolve) => {
    window.addEventListener("online", () => resolve(), { once: true });
    window.setTimeout(resolve, 10_000);
  });
}

const file = (name: string, length = ""): CoreFile => ({ url: new URL(name, document.baseURI).href, length: Number(length) });

main().catch((fault: unknown) => {
  // The static guide stays on the screen; the sentence beside it says what is missing.
  console.error(fault);
  document.getElementById("waiting")?.remove();
  trouble("core");
});
