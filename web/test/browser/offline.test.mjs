// The page without a network: a real host that is stopped, cut off and given another version.
// What a worker does and when is that of Service Workers (W3C), 2.1 and 4; the rules of versions are
// our own and stand in DEVELOPERS.md.

import assert from "node:assert/strict";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { engines, withDevice, withPage } from "../engines.mjs";
import { at, dayFromNow, go, open, phone, said, send, unfold } from "../family.mjs";
import { mark, startHost } from "./stage/host.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

const homes = mkdtempSync(join(tmpdir(), "newel-homes-"));
after(() => rmSync(homes, { recursive: true, force: true, maxRetries: 5 }));

/** Runs a test with a host of its own. */
async function withHost(work) {
  const host = await startHost(site);
  try {
    await work(host);
  } finally {
    await host.stop().catch(() => undefined); // stopped by the test
  }
}

/** One phone on several visits, each with a browser that is started anew where the engine can. */
const withPhone = (engine, work) => withDevice(engine, phone, mkdtempSync(join(homes, "phone-")), work);

/** Waits until the version in use is there whole and answers this page. */
const kept = (page) => page.until(async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  return registration?.active?.state === "activated" && navigator.serviceWorker.controller !== null && !registration.installing;
});

/** Has the browser look for a newer version, as it does by itself at each opening, and waits until it is done. */
const update = (page) => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  await registration.update().catch(() => undefined);
  const worker = registration.installing;
  if (!worker) return;
  await new Promise((resolve) => {
    const look = () => { if (worker.state !== "installing") resolve(); };
    worker.addEventListener("statechange", look);
    look();
  });
});

/** The caches by what their names end with: the versions. */
const versions = (page) => page.evaluate(async () => (await caches.keys()).map((name) => name.split(" ").at(-1)).sort());

const newerShown = (page) => page.evaluate(() => document.querySelector("#newer").getClientRects().length > 0);

/** Holds everything that the page is made of to one version of the host. */
async function allOf(page, host, number) {
  const found = await page.evaluate(() => ({
    version: document.querySelector("script[data-version]").getAttribute("data-version"),
    script: globalThis.newelTest ?? 1,
    sentence: document.querySelector('#trouble [data-why="core"]').textContent,
    files: performance.getEntriesByType("resource").map(({ name }) => new URL(name).pathname.split("/").at(-1)).filter((name) => /-[A-Z2-7]{8}\./.test(name)),
  }));
  assert.equal(found.version, host.version(number));
  assert.equal(found.script, number);
  assert.equal(found.sentence.endsWith(mark), number === 2);
  assert.ok(found.files.length > 1);
  // A core comes as the host sends it, or compressed by the build, or as the module that the worker keeps.
  const sent = (name) => name.replace(/\.gz$/, "").replace(/\.wasm$/, ".press");
  for (const name of found.files) assert.ok(host.names(number).includes(sent(name)), `${name} is no file of version ${number}`);
}

/** Whether the first line of the first list is ticked, which it is first where it shall be. */
async function tick(page, shall) {
  await unfold(page, await page.evaluate(() => document.querySelector("#lists details.list").id));
  return page.evaluate((set) => {
    const box = document.querySelector("#lists form.tick input[type=checkbox]");
    if (set) box.click();
    return box.checked;
  }, shall);
}

/** The link of the example family, as it would come in a message to another phone. */
async function familyLink(engine, host) {
  let fragment = "";
  await withPage(engine, phone, async (page) => {
    await open(page, `${host.url}#demo`);
    fragment = await page.evaluate(() => location.hash);
  });
  return fragment;
}

for (const engine of engines) {
  test(`${engine}: the second visit needs no network, in either language; what is changed without one stays`, () => withHost((host) => withPhone(engine, async (visit) => {
    const fragment = await familyLink(engine, host);
    await visit(async (page) => {
      host.asked.length = 0;
      await open(page, host.url + fragment);
      await kept(page);
      const hashed = host.asked.filter((name) => /-[A-Z2-7]{8}\./.test(name));
      if (engine === "chromium") assert.deepEqual(hashed, [...new Set(hashed)], "what the page has loaded is not downloaded again");
      assert.equal(await newerShown(page), false, "of the first version there is nothing to tell");
    });
    await host.stop();
    await visit(async (page) => {
      await open(page, host.url + fragment);
      assert.ok(await page.evaluate(() => document.querySelector("#days") !== null));
      await allOf(page, host, 1);
      assert.equal(await tick(page, true), true);
      await page.until(() => document.querySelector("#say").textContent !== "");
    });
    await visit(async (page) => {
      await open(page, `${host.url}#last`);
      assert.ok(await page.evaluate(() => location.hash.length > 100), "the icon opens the plan that was looked at last");
      assert.equal(await tick(page, false), true, "what was ticked without a network is ticked after a restart");
      await page.evaluate(() => document.querySelector("#language-es").click());
      await page.until(() => document.querySelector("#newer").lang === "es" && document.documentElement.lang === "es");
      await open(page, host.url);
      assert.ok((await said(page, "#kept-title")).startsWith("Planes"), "a bare address gives the front with its plans");
      await open(page, `${host.url}es.html`);
      assert.equal(await page.evaluate(() => document.documentElement.lang), "es");
      await open(page, `${host.url}#start`);
      await send(page, "/start", { surgery: await dayFromNow(page, 9), patient: "Rosa" });
    });
    await visit(async (page) => {
      await open(page, host.url);
      assert.match(await said(page, ".kept"), /Rosa/, "a plan that was made without a network is kept");
    });
  })));

  test(`${engine}: a newer version waits, says so, and is taken when it is asked for`, () => withHost(async (host) => {
    await withPage(engine, phone, async (page) => {
      await open(page, `${host.url}#demo`);
      await kept(page);
      await page.reload();
      await at(page, "/");
      await go(page, "/facts");
      const field = '.facts-form[data-draft] input[name="patient"]';
      await page.fill(field, "Wilhelmina");
      host.serve(2);
      await update(page);
      await page.until(() => document.querySelector("#newer").getClientRects().length > 0);
      assert.deepEqual(await versions(page), [host.version(1), host.version(2)].sort());
      await allOf(page, host, 1);
      assert.equal(await page.evaluate((s) => document.querySelector(s).value, field), "Wilhelmina");
      await page.until(() => document.querySelector("#say").textContent === document.querySelector("#newer p").textContent);

      await page.click("#newer-take");
      await page.until(() => globalThis.newelTest === 2 && document.querySelector("#waiting") === null);
      await at(page, "/facts");
      await allOf(page, host, 2);
      assert.equal(await page.evaluate((s) => document.querySelector(s).value, field), "Wilhelmina", "a draft outlives it");
      assert.equal(await newerShown(page), false);
      await page.until(async () => (await caches.keys()).length === 1);
      assert.deepEqual(await versions(page), [host.version(2)], "the old version goes once no page is of it");
      await host.stop();
      await open(page, `${host.url}#demo`);
      await allOf(page, host, 2);
    });
  }));

  test(`${engine}: a page that stands open keeps its version, also when another page has taken the next`, () => withHost(async (host) => {
    await withPage(engine, phone, async (page) => {
      await open(page, `${host.url}#demo`);
      await kept(page);
      host.serve(2);
      await update(page);
      // As the button on another page does.
      await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).waiting.postMessage("take"));
      await page.until(async () => (await navigator.serviceWorker.getRegistration()).waiting === null);
      await kept(page);
      host.asked.length = 0;
      await page.evaluate(() => document.querySelector("#language-es").click());
      await page.until(() => document.querySelector("#trouble").lang === "es");
      await go(page, "/link");
      await page.evaluate(() => { for (const fold of document.querySelectorAll("details")) fold.open = true; });
      await page.until(() => performance.getEntriesByType("resource").some(({ name }) => name.includes("/qr-")));
      await page.until(() => document.querySelector("[data-code] svg, svg.code, [data-qr] svg, canvas") !== null);
      await allOf(page, host, 1);
      assert.deepEqual(host.asked, [], "its later files come out of its own version's cache");
      await page.reload();
      await page.until(() => globalThis.newelTest === 2 && document.querySelector("#waiting") === null);
      await allOf(page, host, 2);
    });
  }));

  test(`${engine}: half a version, or a damaged one, is not taken, and the one before stays whole`, () => withHost(async (host) => {
    await withPage(engine, phone, async (page) => {
      await open(page, `${host.url}#demo`);
      await kept(page);
      host.serve(2);
      for (const fault of ["cut", "damaged"]) {
        host.faults.set("page-TESTTWO2.js", fault);
        await update(page);
        await page.until(async () => (await caches.keys()).length === 1);
        assert.deepEqual(await versions(page), [host.version(1)], fault);
        assert.ok(host.asked.includes("page-TESTTWO2.js"));
        assert.equal(await newerShown(page), false);
        await host.stop();
        await open(page, `${host.url}#demo`);
        await allOf(page, host, 1);
        await host.start();
      }
      host.faults.clear();
      await update(page);
      await page.until(() => document.querySelector("#newer").getClientRects().length > 0);
      await allOf(page, host, 1);
    });
  }));

  test(`${engine}: where the core does not start, a newer version is offered all the same`, () => withHost(async (host) => {
    await withPage(engine, phone, async (page) => {
      await open(page, `${host.url}#demo`);
      await kept(page);
      // As in a version whose core does not start here.
      await page.evaluate(async () => {
        const cache = await caches.open((await caches.keys())[0]);
        const cores = (await cache.keys()).filter(({ url }) => /\/(core|whole)-/.test(url));
        for (const { url } of cores) await cache.put(url, new Response(new Uint8Array([1, 2, 3]), { headers: { "content-type": "application/wasm" } }));
      });
      host.serve(2);
      await page.reload();
      await page.until(() => document.querySelector('#trouble [data-why="core"]').getClientRects().length > 0);
      await page.until(() => document.querySelector("#newer").getClientRects().length > 0);
      await page.click("#newer-take");
      await page.until(() => globalThis.newelTest === 2);
    });
  }));

  test(`${engine}: a newer version is taken by itself once no page is open, and a page open for long looks for one`, () => withHost((host) => withPhone(engine, async (visit) => {
    await visit(async (page) => {
      await open(page, `${host.url}#demo`);
      await kept(page);
      await page.reload();
      await at(page, "/");
      // Until the page has said that it is kept, it does not listen.
      await page.until(async () => (await navigator.serviceWorker.getRegistration())?.active?.state === "activated");
      await new Promise((resolve) => setTimeout(resolve, 6000));
      host.serve(2);
      host.asked.length = 0;
      const shown = () => document.dispatchEvent(new Event("visibilitychange"));
      await page.evaluate(shown);
      await new Promise((resolve) => setTimeout(resolve, 500));
      assert.deepEqual(host.asked, [], "not so soon");
      await page.evaluate(() => { const now = Date.now(); Date.now = () => now + 4 * 3_600_000; });
      await page.evaluate(shown);
      await page.until(() => document.querySelector("#newer").getClientRects().length > 0);
      assert.equal(host.asked.filter((name) => name === "worker.js").length, 1);
      await page.goto("about:blank");
    });
    await visit(async (page) => {
      await open(page, `${host.url}#demo`);
      await allOf(page, host, 2);
    });
  })));

  test(`${engine}: where the browser keeps nothing, the page is as ever`, () => withHost(async (host) => {
    host.faults.set("worker.js", "damaged");
    await withPage(engine, phone, async (page) => {
      await open(page, `${host.url}#demo`);
      await page.until(() => performance.getEntriesByType("resource").length > 0);
      await new Promise((resolve) => setTimeout(resolve, 3000));
      assert.deepEqual(await versions(page), []);
      await go(page, "/link");
      await allOf(page, host, 1);
    });
  }));
}
