// The files that the page is made of, as it names them itself.

import assert from "node:assert/strict";

/** The paths of all of them: what its worker keeps, and the icons that its head and its manifest name. */
export async function filesOfThePage(site) {
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
  // A core is asked for as it is sent, compressed by the build where a host does not, or as the module that the worker keeps.
  const cores = kept.filter((name) => name.endsWith(".press")).flatMap((name) => [`${name}.gz`, name.replace(/press$/, "wasm")]);
  const names = [...kept, ...cores, ...icons, ...href("(?:apple-touch-)?icon"), "worker.js"];
  for (const name of ["apple-touch-icon.png", "icon.svg"]) assert.ok(names.includes(name), name);
  return new Set(names.map((name) => new URL(name, site).pathname));
}
