// The page's one script. The static HTML names the core's file beside it:
//   <script type="module" src="main-….js" data-core="core-….wasm">

import { loadCore } from "./core.js";
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

async function main(): Promise<void> {
  listenForType(); // first: what is drawn in another size would move
  listenForJumps();
  unfoldForPaper();
  listenForPrint();
  const app = document.getElementById("app");
  const name = document.querySelector("script[data-core]")?.getAttribute("data-core");
  if (!app || !name) throw new Error("the page lacks #app or a script with data-core");
  // Hidden in the page itself, so that nobody is told to wait where scripts are off.
  document.getElementById("waiting")?.removeAttribute("hidden");
  openLast();
  showFirst();
  speakOwnLanguage(fillFirst);
  listenForKeys(app);
  offerHome();
  guardLeaving();
  startShell(app, await loadCore(new URL(name, document.baseURI).href));
  noteLast();
  void keepOffline();
}

main().catch((fault: unknown) => {
  // The static guide stays on the screen; the sentence beside it says what is missing.
  console.error(fault);
  document.getElementById("waiting")?.remove();
  trouble("core");
});
