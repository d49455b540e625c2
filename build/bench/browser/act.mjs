// Does what a helper does, on a phone whose own thread is slowed, and measures from the event to
// the next frame; and beside each what the browser itself needs for the same page: its HTML set
// into an empty page with the same style.
//
//   node act.mjs '{"ours": URL, "families": {"reference": {own, other, later, helper}}, "rates": [4, 6], "rounds": 3}'
//
// prints for each family and rate the list of what was measured.

import { actions, tools } from "./actions.mjs";
import { answer, launch, profile, question, tab } from "./phone.mjs";

const { ours, families, rates, rounds } = question();
const patience = 60_000;

/** Hooks that tell how much of an action was the core, before the page's scripts run. */
function hooks() {
  window.benchCore = 0;
  window.benchTasks = [];
  let handle;
  Object.defineProperty(globalThis, "newelHandle", {
    get: () => handle && ((request) => {
      const began = performance.now();
      const response = handle(request);
      window.benchCore += performance.now() - began;
      return response;
    }),
    set: (value) => { handle = value; },
  });
  new PerformanceObserver((list) => {
    for (const e of list.getEntries()) window.benchTasks.push([e.startTime, e.duration]);
  }).observe({ type: "longtask" });
}

/** Runs in the page: one action in a task of its own, until the frame that shows its answer. */
async function measure(act, done, links) {
  const frame = () => new Promise((ok) => requestAnimationFrame(ok));
  const call = (text) => (0, eval)(`(${text})`); // eslint-disable-line
  const doIt = call(act);
  const isDone = call(done);
  await frame();
  await new Promise((ok) => setTimeout(ok, 50));
  const before = { hash: location.hash, lang: document.documentElement.lang, links };
  window.benchCore = 0;
  let drawn = 0;
  const began = await new Promise((ok, fail) => setTimeout(() => {
    // Asked for before the page asks for anything, so that nothing of the page's comes between the frame and this.
    requestAnimationFrame(() => setTimeout(() => { drawn = performance.now(); }));
    const now = performance.now();
    try { doIt(links); ok(now); } catch (fault) { fail(fault); }
  }));
  await frame();
  await frame();
  const twice = performance.now() - began;
  const late = !isDone(before);
  while (!isDone(before)) {
    if (performance.now() - began > 60_000) throw new Error(`no answer within a minute to ${act}`);
    await frame();
  }
  if (late) await frame(); // up to here it has been changed, and not yet drawn
  const time = late ? performance.now() - began : twice;
  await new Promise((ok) => setTimeout(ok, 150)); // long tasks are told late
  const tasks = window.benchTasks.filter(([at, length]) => at + length > began && at < began + time).map(([, length]) => length);
  return { time, seen: drawn - began, core: window.benchCore, task: Math.max(0, ...tasks), html: document.getElementById("app").innerHTML };
}

/** Runs in the page: what the browser needs to show the same page in an empty one. */
async function show(html) {
  const frame = () => new Promise((ok) => requestAnimationFrame(ok));
  const app = document.getElementById("app");
  app.replaceChildren();
  await frame();
  await frame();
  const began = performance.now();
  app.innerHTML = html;
  await frame();
  await frame();
  return performance.now() - began;
}

/** An empty page of the same origin with the page's own style. */
async function emptyPage(browser) {
  const page = await tab(browser);
  await page.goto(`${ours}licenses.txt`);
  await page.evaluate(async (address) => {
    const index = new DOMParser().parseFromString(await (await fetch(address)).text(), "text/html");
    document.head.append(document.importNode(index.querySelector("style"), true)); // the page's own, so its policy allows it
    document.body.innerHTML = '<div id="app"></div>';
  }, ours);
  return page;
}

/** A page with the family's plan, on which everything has been done once: both cores are there. */
async function opened(browser, links) {
  const page = await tab(browser);
  await page.bringToFront();
  await page.setBypassCSP(true); // the page's own rules forbid eval, by which the actions come in
  await page.evaluateOnNewDocument(hooks);
  await page.evaluateOnNewDocument(tools);
  await page.goto(`${ours}#${links.own}`);
  await page.waitForFunction(() => document.getElementById("next") && !document.getElementById("waiting"), { timeout: patience, polling: 50 });
  return page;
}

async function step(page, [act, done]) {
  await page.evaluate((text) => (0, eval)(`(${text})`)(), act);
  await page.waitForFunction((text) => (0, eval)(`(${text})`)({}), { timeout: patience, polling: 50 }, done);
}

/** Where a page stands, for whoever has to find out why it does not go on. */
async function standing(page) {
  const { title, at, address, trouble } = await page.evaluate(() => ({
    title: document.title, at: history.state?.path, address: location.hash.slice(0, 12),
    trouble: [...document.querySelectorAll("#trouble [data-why]:not([hidden])")].map((p) => p.textContent).join(" "),
  }));
  return [`the page stands at ${at}, #${address}…, "${title}". ${trouble}`, ...page.faults].join("\n");
}

/** All actions once; found hears of each. */
async function lap(page, links, found) {
  for (const { name, from = [], act, done } of actions) {
    links.now = await page.evaluate(() => location.hash.slice(1));
    try {
      for (const s of from) await step(page, s);
      const { html, ...measured } = await page.evaluate(measure, String(act), String(done), links);
      await found(name, measured, html);
    } catch (fault) {
      throw new Error(`${name}: ${fault.message}\n${await standing(page)}`, { cause: fault });
    }
    if (page.faults.length > 0) throw new Error(`${name}: ${page.faults.join("\n")}`);
  }
}

async function round(family, links, rate, results) {
  const { home, remove } = await profile();
  const browser = await launch(home);
  try {
    const bare = await emptyPage(browser);
    const page = await opened(browser, links); // after the other, since a tab behind another one gets no frames
    await lap(page, { ...links, joins: links.other }, () => {}); // once, at full speed, unmeasured
    for (const each of [page, bare]) await each.session.send("Emulation.setCPUThrottlingRate", { rate });
    await lap(page, { ...links, joins: links.later }, async (name, measured, html) => {
      await bare.bringToFront();
      const peer = await bare.evaluate(show, html);
      await page.bringToFront();
      process.stderr.write(`${family} ${rate}x ${name}: ${Math.round(measured.time)} ms\n`);
      results.push({ family, rate, name, peer, size: html.length, ...measured });
    });
  } finally {
    await browser.close();
    await remove();
  }
}

const results = [];
for (let i = 0; i < rounds; i++)
  for (const rate of rates)
    for (const [family, links] of Object.entries(families)) await round(family, links, rate, results);
answer(results);
