// Opens pages as a phone on slow 4G does: with an empty profile, again in the same browser, and
// again after the browser was ended and started anew.
//
//   node load.mjs '{"ours": URL, "floor": URL, "runs": 5, "cpu": 4}'
//
// prints for ours and floor the list of runs, each with cold, again and restart.

import { answer, launch, pause, profile, question, slow4G, tab } from "./phone.mjs";
import { watch } from "./watch.mjs";

const { ours, floor, runs, cpu } = question();

/** How long anything may take before the run has failed. */
const patience = 120_000;

/** Loads an address in a new tab and gives what the page noted; mark is what ends it. */
async function load(browser, url, mark) {
  const page = await tab(browser, { cpu, line: slow4G });
  await page.evaluateOnNewDocument(watch);
  await page.goto(url, { waitUntil: "domcontentloaded", timeout: patience });
  await page.waitForFunction((name) => typeof window.bench?.[name] === "number", { timeout: patience, polling: 250 }, mark);
  await pause(2000); // what moves late counts as well
  const found = await page.evaluate(() => ({ ...window.bench, ...window.benchCore(), worker: performance.getEntriesByType("navigation")[0].workerStart > 0 }));
  if (page.faults.length > 0) throw new Error(`${url}: ${page.faults.join("\n")}`);
  return { page, found: { ...found, ...largest(found) } };
}

/** The largest thing painted so far: when the core's page came, and in the end. */
function largest({ largestAll, whole }) {
  const last = (entries) => entries.at(-1)?.[0] ?? 0;
  return { largest: last(largestAll.filter(([at]) => whole === undefined || at < whole)), largestAll: last(largestAll), elements: largestAll };
}

/** Until a service worker, if there is one, has all that it keeps, and the line is idle. */
async function settled(page) {
  await page.session.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  await page.waitForNetworkIdle({ idleTime: 3000, timeout: patience });
  await page.evaluate(async () => { if (await navigator.serviceWorker?.getRegistration()) await navigator.serviceWorker.ready; });
  await page.waitForNetworkIdle({ idleTime: 3000, timeout: patience });
  await pause(1000); // the browser writes to the disk when it has time
}

async function round(url, mark) {
  const { home, remove } = await profile();
  const result = {};
  let browser = await launch(home, slow4G);
  try {
    const first = await load(browser, url, mark);
    result.cold = first.found;
    await settled(first.page);
    await first.page.close();
    const second = await load(browser, url, mark);
    result.again = second.found;
    await settled(second.page);
    await browser.close();
    browser = await launch(home, slow4G);
    result.restart = (await load(browser, url, mark)).found;
  } finally {
    await browser.close();
    await remove();
  }
  return result;
}

const all = { ours: [], floor: [] };
for (let i = 0; i < runs; i++) { // by turns, so that a machine that slows down slows both
  all.floor.push(await round(floor, "floor"));
  all.ours.push(await round(ours, "whole"));
}
answer(all);
