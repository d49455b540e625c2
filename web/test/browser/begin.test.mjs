// The script that stands in the page itself (web/begin.ts): it shows the first line and has a worker
// make the core ready before the page's other script has come; and where it may not run, that one does
// all of it. The real page, with its script held back or its policy changed.

import assert from "node:assert/strict";
import { createServer } from "node:http";
import test from "node:test";
import { engines, withPage } from "../engines.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const phone = { width: 360, height: 740, timezone: "America/Chicago", language: "en-US" };

/**
 * The site on another port: with late, its script waits for letScript(); with forbid, its policy, which
 * comes as a header and in the page, does not know what stands in the page. asked lists the paths in the
 * order of the requests.
 */
async function withHost({ late = false, forbid = false }, run) {
  const asked = [];
  const server = createServer(async (request, response) => {
    const path = request.url.replace(/\?.*/, "");
    asked.push(path);
    const from = await fetch(new URL(path, site), { headers: { "accept-encoding": "identity" } });
    const type = from.headers.get("content-type");
    // letScript gives a script its address without the page's own policy for such.
    const changed = (policy) => (forbid ? policy.replaceAll(/ 'sha256-[^']*'/g, "") : late ? policy.replace("; require-trusted-types-for 'script'", "") : policy);
    let body = Buffer.from(await from.arrayBuffer());
    if (type.startsWith("text/html")) {
      body = body.toString().replace(/(<meta http-equiv="Content-Security-Policy" content=")([^"]*)/, (_, start, policy) => start + changed(policy));
      if (late) body = body.replace('<script type="module" src=', '<script type="module" data-late=');
    }
    response.writeHead(from.status, {
      "content-type": type, "cache-control": from.headers.get("cache-control"),
      "content-security-policy": changed(from.headers.get("content-security-policy")),
    });
    response.end(body);
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  try {
    await run({ url: `http://127.0.0.1:${server.address().port}/`, asked });
  } finally {
    server.closeAllConnections();
    server.close();
  }
}

/** Firefox tells of a module that was given up half-way as of an error, though that is caught. */
function brokenOff(engine, page) {
  if (engine !== "firefox") return;
  for (const error of page.takeErrors()) assert.match(error, /Failed to read data from the ReadableStream/);
}

/** The page's script comes at last. */
const letScript = (page) => page.evaluate(() => {
  const script = document.createElement("script");
  script.type = "module";
  script.src = document.querySelector("script[data-late]").dataset.late;
  document.head.append(script);
});

const line = () => document.querySelector("#first-line")?.innerText ?? "";
const there = () => document.querySelector("#title") !== null && document.querySelector("#waiting") === null;
// This host compresses nothing, so the copy that the build has compressed is asked for as well.
const askedFor = (host, name) => host.asked.filter((path) => path.startsWith(`/${name}-`) && !path.endsWith(".gz")).length;

async function family(page) {
  await page.goto(`${site}#demo`);
  await page.until(there);
  return page.evaluate(() => location.hash);
}

for (const engine of engines) {
  test(`${engine}: the line stands there and the core is fetched before the page's script has come, and once`, () =>
    withPage(engine, phone, (page) => withHost({ late: true }, async (host) => {
      const fragment = await family(page);
      await page.goto(host.url + fragment);
      await page.until(`() => (${line})() !== ""`);
      assert.equal(await page.evaluate(there), false);
      await page.until(() => globalThis.newelBegun.heard.some((heard) => "answer" in heard));
      await letScript(page);
      await page.until(there);
      assert.ok(await page.evaluate(() => document.querySelector("#days") !== null));
      assert.equal(askedFor(host, "core"), 1);
    })));

  test(`${engine}: an address that was changed before the page's script came is the one that is shown`, () =>
    withPage(engine, phone, (page) => withHost({ late: true }, async (host) => {
      const fragment = await family(page);
      await page.goto(host.url + fragment);
      await page.until(`() => (${line})() !== ""`);
      await page.evaluate(() => { location.hash = "start"; });
      await letScript(page);
      await page.until(() => document.querySelector("#field-surgery") !== null && document.querySelector("#waiting") === null);
      await page.click("label[for=field-surgery]"); // it stands, and is alive
      assert.equal(await page.evaluate(() => document.querySelector("#days") === null), true);
      brokenOff(engine, page);
    })));

  test(`${engine}: so is another link that came before the page's script`, () =>
    withPage(engine, phone, (page) => withHost({ late: true }, async (host) => {
      const fragment = await family(page);
      await page.goto(host.url);
      await page.until(() => globalThis.newelBegun.heard.some((heard) => "answer" in heard));
      await page.evaluate((hash) => { location.hash = hash; }, fragment.slice(0, -4));
      await letScript(page);
      await page.until(() => document.querySelector("#title")?.textContent.includes("was cut off in sending"));
    })));

  test(`${engine}: what another tab has stored while the first question was with the worker is not lost`, () =>
    withPage(engine, phone, (page) => withHost({ late: true }, async (host) => {
      const start = await family(page);
      const key = () => Object.keys(localStorage).find((name) => name.startsWith("newel.plan."));
      const opened = async (fragment, meanwhile = () => undefined) => {
        await page.goto(`${host.url}nothing-here`);
        await page.goto(host.url + fragment);
        await page.until(() => globalThis.newelBegun.heard.some((heard) => "answer" in heard));
        await meanwhile();
        await letScript(page);
        await page.until(there);
        await page.until(() => typeof globalThis.newelHandle === "function");
      };
      const store = (fragment) => page.evaluate(`(value) => localStorage.setItem((${key})(), value)`, fragment.slice(1));
      const ticked = async (box) => {
        await opened(start);
        await page.click(box);
        await page.until((hash) => location.hash !== hash, start);
        const hash = await page.evaluate(() => location.hash);
        await store(start); // as it was before
        return hash;
      };
      const [one, two] = [await ticked("#day-3-0-box"), await ticked("#day-1-0-box")];
      await opened(one, () => store(two));
      assert.deepEqual(await page.evaluate(() => ["#day-3-0-box", "#day-1-0-box"].map((s) => document.querySelector(s).checked)), [true, true]);
      assert.equal(await page.evaluate(`() => localStorage.getItem((${key})()) === location.hash.slice(1)`), true);
    })));

  test(`${engine}: where a host's policy does not know the script, the page's other one does its work`, () =>
    withPage(engine, phone, (page) => withHost({ forbid: true }, async (host) => {
      const fragment = await family(page);
      await page.goto(host.url + fragment);
      await page.until(there);
      assert.equal(askedFor(host, "core"), 1);
      // Firefox tells of what a policy forbids as of an error.
      for (const error of page.takeErrors()) assert.match(error, /Content-Security-Policy/);
    })));
}
