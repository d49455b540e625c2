// The one button that removes everything of this page from the device. What a browser keeps for a page is
// Storage (WHATWG), 4: local and session storage, caches, service worker registrations.

import assert from "node:assert/strict";
import test, { after, before } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { at, dayFromNow, go, open, phone, said, send } from "../family.mjs";
import { startHost } from "./stage/host.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

let host;
before(async () => { host = await startHost(site); });
after(() => host.stop());

/** All that the browser has for this origin. */
const left = (page) => page.evaluate(async () => ({
  local: Object.keys(localStorage).sort(), session: Object.keys(sessionStorage).sort(),
  caches: (await caches.keys()).sort(), workers: (await navigator.serviceWorker.getRegistrations()).length,
  databases: (await indexedDB.databases?.())?.length ?? 0, cookies: document.cookie,
}));

for (const engine of engines) {
  test(`${engine}: one button, asked twice, leaves nothing of ours on the device, and all of others'`, () => withPage(engine, phone, async (page) => {
    await open(page, `${host.url}#start`);
    await send(page, "/start", { surgery: await dayFromNow(page, 9), patient: "Rosa" });
    await page.evaluate(async () => {
      localStorage.setItem("hospital-site", "theirs");
      sessionStorage.setItem("hospital-site", "theirs");
      await (await caches.open("hospital-site")).put("/theirs", new Response("theirs"));
    });
    await page.click("#type-size");
    await page.evaluate(() => document.querySelector("#language-es").click());
    await page.until(() => document.documentElement.lang === "es");
    await go(page, "/facts");
    await page.fill('.facts-form[data-draft] input[name="patient"]', "Wilhelmina");
    await page.until(async () => (await navigator.serviceWorker.getRegistration())?.active?.state === "activated");
    const full = await left(page);
    for (const kind of ["plan.", "hand.", "read.", "language", "type"]) assert.ok(full.local.some((key) => key.startsWith(`newel.${kind}`)), `${kind} is there to be removed: ${full.local}`);
    assert.ok(full.session.some((key) => key.startsWith("newel-draft.")));
    assert.deepEqual([full.workers, full.caches.filter((name) => name.startsWith("newel ")).length], [1, 1]);

    await go(page, "/device");
    assert.match(await said(page), /Lo que guarda este aparato/);
    await go(page, "/device/wipe");
    assert.match(await said(page), /no se puede deshacer/);
    assert.deepEqual(await left(page), { ...full, local: (await left(page)).local }, "nothing is removed before the answer");
    await page.click("#wipe-sure");
    await page.until(() => document.querySelector("#notice-history") !== null);
    assert.deepEqual(await left(page), { local: ["hospital-site"], session: ["hospital-site"], caches: ["hospital-site"], workers: 0, databases: 0, cookies: "" });
    assert.equal(await page.evaluate(() => location.hash), "");
    assert.match(await said(page), /history/, "the history is the browser's, and that is said");
    assert.equal(await page.evaluate(() => document.querySelector("#app a[href*='#'][data-path='/'][href$='#']") !== null || document.querySelector("#app").innerHTML.includes("Rosa")), false);
    // Leaving the page keeps nothing again, and what it loads goes into no cache.
    await page.evaluate(() => { dispatchEvent(new Event("pagehide")); document.dispatchEvent(new Event("visibilitychange")); });
    await page.evaluate(() => new Promise((done) => setTimeout(done, 2500))); // longer than offline.ts waits before it registers
    assert.deepEqual((await left(page)).local, ["hospital-site"]);
    assert.deepEqual([(await left(page)).workers, (await left(page)).caches], [0, ["hospital-site"]]);
    await page.reload();
    await at(page, "/device").catch(() => at(page, "/"));
    assert.doesNotMatch(await said(page), /Rosa/);
  }));
}
