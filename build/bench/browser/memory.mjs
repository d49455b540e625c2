// What the page holds in memory after an hour's worth of use: the actions of actions.mjs, again
// and again, by turns.
//
//   node memory.mjs '{"ours": URL, "families": {"reference": {own, other, later, helper}}, "laps": 100}'
//
// prints for each family the bytes at the start, after half of the laps and at the end.

import { actions, tools } from "./actions.mjs";
import { answer, launch, profile, question, tab } from "./phone.mjs";

const { ours, families, laps } = question();
const patience = 60_000;

/** Notes the memory of every core that is started, before the page's scripts run. */
function hooks() {
  const memories = [];
  const note = (instance) => {
    const memory = Object.values(instance.exports).find((e) => e instanceof WebAssembly.Memory);
    if (memory) memories.push(new WeakRef(memory));
    return instance;
  };
  const { Instance, instantiate, instantiateStreaming } = WebAssembly;
  WebAssembly.Instance = new Proxy(Instance, { construct: (target, args) => note(Reflect.construct(target, args)) });
  const noted = (made) => { note(made instanceof Instance ? made : made.instance); return made; };
  WebAssembly.instantiate = (...args) => instantiate.apply(WebAssembly, args).then(noted);
  WebAssembly.instantiateStreaming = (...args) => instantiateStreaming.apply(WebAssembly, args).then(noted);
  window.benchMemory = () => memories.map((m) => m.deref()?.buffer.byteLength ?? 0);
}

async function step(page, act, done, links) {
  await page.evaluate((doIt, given) => {
    window.benchBefore = { hash: location.hash, lang: document.documentElement.lang, links: given };
    (0, eval)(`(${doIt})`)(given);
  }, String(act), links);
  await page.waitForFunction((isDone) => (0, eval)(`(${isDone})`)(window.benchBefore), { timeout: patience, polling: 10 }, String(done));
}

/** All actions once. Nothing is left to join after the first two laps. */
async function lap(page, links) {
  for (const { name, from = [], act, done } of actions) {
    if (name === "join" && !links.joins) continue;
    links.now = await page.evaluate(() => location.hash.slice(1));
    try {
      for (const [way, there] of from) await step(page, way, there, links);
      await step(page, act, done, links);
    } catch (fault) {
      throw new Error(`${name}: ${fault.message}`, { cause: fault });
    }
  }
  if (page.faults.length > 0) throw new Error(page.faults.join("\n"));
}

/** The cores' memory and the scripts', after the scripts' collector has run. */
async function held(page) {
  await page.session.send("HeapProfiler.collectGarbage");
  const { metrics } = await page.session.send("Performance.getMetrics");
  const cores = await page.evaluate(() => window.benchMemory());
  if (cores.length === 0) throw new Error("no core was seen to start: the page starts WebAssembly in a way that hooks() does not know");
  return { cores, wasm: cores.reduce((sum, size) => sum + size), script: metrics.find(({ name }) => name === "JSHeapUsedSize").value };
}

async function hour(links) {
  const { home, remove } = await profile();
  const browser = await launch(home);
  try {
    const page = await tab(browser);
    await page.session.send("Performance.enable");
    await page.setBypassCSP(true); // the page's own rules forbid eval, by which the actions come in
    await page.evaluateOnNewDocument(hooks);
    await page.evaluateOnNewDocument(tools);
    await page.goto(`${ours}#${links.own}`);
    await page.waitForFunction(() => document.getElementById("next") && globalThis.newelHandle, { timeout: patience }); // the first answer is the worker's
    const first = await held(page);
    await lap(page, { ...links, joins: links.other });
    await lap(page, { ...links, joins: links.later });
    const start = await held(page);
    for (let i = 0; i < laps / 2; i++) await lap(page, { ...links });
    const half = await held(page);
    for (let i = 0; i < laps / 2; i++) await lap(page, { ...links });
    return { first, start, half, end: await held(page) };
  } finally {
    await browser.close();
    await remove();
  }
}

const results = {};
for (const [family, links] of Object.entries(families)) results[family] = { ...(await hour(links)), actions: laps * (actions.length - 1) };
answer(results);
