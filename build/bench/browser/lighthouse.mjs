// Asks Lighthouse, as it comes, how it finds an address: a phone on a slow line, which it works
// out from one load at full speed (its own simulated throttling).
//
//   node lighthouse.mjs '{"url": …, "modules": FOLDER, "runs": 3}'
//
// modules is where lighthouse is installed. Prints each run's scores from 0 to 100, its times, and
// the audits that cost points.

import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { answer, launch, profile, question } from "./phone.mjs";

const { url, modules, runs } = question();
const { default: lighthouse } = await import(pathToFileURL(join(modules, "lighthouse", "core", "index.js")).href);

const categories = ["performance", "accessibility", "best-practices"];

/** The audits that cost points, with how many of a hundred. */
function lost(lhr) {
  return categories.flatMap((id) => {
    const refs = lhr.categories[id].auditRefs.filter(({ weight }) => weight > 0);
    const sum = refs.reduce((total, { weight }) => total + weight, 0);
    return refs.filter((ref) => (lhr.audits[ref.id].score ?? 1) < 0.995)
      .map((ref) => `${ref.id} ${((1 - lhr.audits[ref.id].score) * ref.weight / sum * 100).toFixed(1)} (${lhr.audits[ref.id].displayValue ?? "failed"})`);
  });
}

async function run() {
  const { home, remove } = await profile();
  const browser = await launch(home);
  try {
    const { lhr } = await lighthouse(url, { port: Number(new URL(browser.wsEndpoint()).port), output: "json", onlyCategories: categories, logLevel: "error" });
    if (lhr.runtimeError) throw new Error(`Lighthouse could not judge the page: ${lhr.runtimeError.message}`);
    const scores = Object.fromEntries(categories.map((id) => {
      if (lhr.categories[id].score === null) throw new Error(`Lighthouse gave no score for ${id}`);
      return [id, Math.round(lhr.categories[id].score * 100)];
    }));
    return { ...scores, version: lhr.lighthouseVersion, lost: lost(lhr) };
  } finally {
    await browser.close();
    await remove();
  }
}

const all = [];
for (let i = 0; i < runs; i++) all.push(await run());
answer(all);
