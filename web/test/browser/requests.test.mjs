// What the page asks the network for: files of its own, and nothing else.

import assert from "node:assert/strict";
import { test } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { phone } from "../family.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

/** The paths of all that the page is made of: what its worker keeps, and the icons that its head and its manifest name. */
async function filesOfThePage() {
  const text = async (name) => {
    const response = await fetch(site + name);
    assert.equal(response.status, 200, name);
    return response.text();
  };
  const kept = JSON.parse(/newelFiles=(.*);\n/.exec(await text("worker.js"))[1]).map(([name]) => name);
  const head = await text("");
  const href = (rel) => [...head.matchAll(new RegExp(`<link rel="${rel}"[^>]* href="([^"]+)"`, "g"))].map(([, name]) => name);
  const manifests = href("manifest");
  const icons = (await Promise.all(manifests.map(async (name) => JSON.parse(await text(name)).icons))).flat().map(({ src }) => src);
  // A core is asked for as it is sent, or as the module that the worker makes of it and keeps.
  const cores = kept.filter((name) => name.endsWith(".press")).map((name) => name.replace(/press$/, "wasm"));
  const names = [...kept, ...cores, ...icons, ...href("(?:apple-touch-)?icon"), "worker.js"];
  for (const name of ["apple-touch-icon.png", "icon.svg"]) assert.ok(names.includes(name), name);
  return new Set(names.map((name) => new URL(name, site).pathname));
}

for (const engine of engines)
  test(`${engine}: nothing leaves the device`, () =>
    withPage(engine, phone, async (page) => {
      await page.goto(`${site}#demo`);
      await page.until(() => document.querySelector("#next") !== null);
      await page.click("#day-3-0-box");
      await page.until(() => document.querySelector("#say").textContent !== "");
      const asked = await page.requests();
      assert.ok(asked.length > 0);
      const home = new URL(site).origin;
      for (const url of asked) assert.equal(new URL(url).origin, home, url);
      const own = await filesOfThePage();
      for (const url of asked) assert.ok(own.has(new URL(url).pathname), `${url} is no file of the page`);
    }));
