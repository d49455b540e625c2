// A bad phone on a bad line, as Chromium plays one: what the programs in this folder share.
//
// What is slowed and what is not (Chromium 148; tried with one loop and one file of 100 kB, in a
// page and in its service worker):
//   - the line: every request of the page has 150 ms of delay and 200 kB a second, and so has every
//     request of its service worker, to which it is said as soon as it is there. What a worker asks
//     for in its very first moments may be quicker; no figure holds a worker's installation. Not
//     played are the name's look-up and the handshakes, which a page on this machine does not have.
//   - the processor: the page's own thread gets a quarter (or a sixth) of its time. A service
//     worker's thread is not slowed: Chromium refuses ("only supported for pages, not workers").
//     Nor are the threads that compile WebAssembly, decode and paint (from memory; not tried).
// So a real phone takes longer than these times say. The ratio to a peer that is measured beside
// them, with the same threads left at full speed, is what to compare.

import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import puppeteer from "puppeteer-core";

/** Slow 4G: milliseconds, and bytes a second each way. */
export const slow4G = { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 1.6e6 / 8 };

/** A phone: CSS pixels, two of the screen's to each. */
export const screen = { width: 360, height: 740, deviceScaleFactor: 2, isMobile: true, hasTouch: true };

// No sandbox: see web/test/engines/puppeteer.mjs.
const flags = [
  "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync", "--lang=en-US",
  "--disable-features=InitialWebUI", // the buttons of a desktop's window, made by a page that would compete for the processor
];

/** Starts Chromium with a profile in that folder. line: slow4G, or undefined for this machine's own. */
export async function launch(home, line, more = []) {
  const browser = await puppeteer.launch({
    executablePath: process.env.NEWEL_CHROMIUM ?? "/usr/bin/chromium", userDataDir: home, args: [...flags, ...more],
  });
  browser.on("targetcreated", (target) => { if (line && target.type() === "service_worker") void slowWorker(target, line); });
  return browser;
}

/** A service worker asks for files on a connection of its own, so the line is said to it too. */
async function slowWorker(target, line) {
  try {
    const session = await target.createCDPSession();
    await session.send("Network.enable");
    await session.send("Network.emulateNetworkConditions", line);
  } catch (fault) { // one that has ended already asks for nothing more
    if (!/closed|detached|No target/i.test(String(fault?.message))) throw fault;
  }
}

/** A new folder for a profile, and the call that removes it. */
export async function profile() {
  const home = await mkdtemp(join(tmpdir(), "newel-bench-"));
  return { home, remove: () => rm(home, { recursive: true, force: true, maxRetries: 5 }) };
}

/** A tab of that phone. cpu: how many times slower its own thread is. */
export async function tab(browser, { cpu = 1, line } = {}) {
  const page = await browser.newPage();
  await page.setViewport(screen);
  await page.emulateTimezone("America/Chicago");
  await page.emulateFocusedPage(true); // as a window in front is
  const session = await page.createCDPSession();
  await session.send("Network.enable");
  if (line) await session.send("Network.emulateNetworkConditions", line);
  await session.send("Emulation.setCPUThrottlingRate", { rate: cpu });
  page.faults = [];
  page.on("pageerror", (fault) => page.faults.push(String(fault?.stack ?? fault)));
  page.session = session;
  return page;
}

/** The question that the program was started with, one argument of JSON. */
export const question = () => JSON.parse(process.argv[2]);

/** Prints the answer, which is all that goes to standard output. */
export const answer = (value) => process.stdout.write(`${JSON.stringify(value)}\n`);

export const pause = (ms) => new Promise((resolve) => { setTimeout(resolve, ms); });
