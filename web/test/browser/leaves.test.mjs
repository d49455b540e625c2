// Nothing leaves the device: a walk through the whole product, with every request recorded by the host and by
// the browser. What a browser may send of an address is RFC 9110 7.1 (no fragment) and 10.1.3, and the W3C's
// Referrer Policy 3.1.

import assert from "node:assert/strict";
import { test } from "node:test";
import { engines, withPage } from "../engines.mjs";
import { at, phone } from "../family.mjs";
import { filesOfThePage } from "../files.mjs";
import { typed, walk } from "../walk.mjs";
import { withRecorder } from "./stage/recorder.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");

/** So many letters of a fragment in a row are a part of it; hashes in the files' names are shorter. */
const long = 10;

/** What may be in nothing that leaves: parts of the fragments that were seen, and the words that were typed. */
class Secrets {
  #parts = new Set();

  add(fragment) {
    for (let i = 0; i + long <= fragment.length; i++) this.#parts.add(fragment.slice(i, i + long));
  }

  get size() { return this.#parts.size; }

  /** The first of them in a text, or undefined; a name may stand in the page's title, a fragment not. */
  in(text, words = typed) {
    for (const form of [text, text.replaceAll(/%[0-9A-Fa-f]{2}/g, (hex) => String.fromCharCode(Number.parseInt(hex.slice(1), 16)))]) {
      for (const word of words) if (form.includes(word)) return word;
      for (let i = 0; i + long <= form.length; i++) if (this.#parts.has(form.slice(i, i + long))) return form.slice(i, i + long);
    }
    return undefined;
  }
}

/** A request is a bare GET of a file of the page, and says nothing of the address or of the person. */
function bare({ method, target, headers, text }, own, secrets) {
  assert.match(text, /\n\n$/, `${target} has a body`);
  assert.equal(method, "GET", target);
  const [path, search] = target.split("?");
  assert.ok(own.has(path), `${target} is no file of the page`);
  if (search !== undefined) assert.match(search, /^[A-Z2-7]{8}$/, "another language's page, of this page's version");
  for (const name of ["cookie", "authorization"]) assert.equal(headers[name], undefined, `${target} ${name}`);
  // Asking for the worker, Chromium names the worker that it has, and WebKit the page's bare address, whatever the
  // page's policy says. Neither has a word of what stands behind "#".
  const browsersOwn = [`http://${headers.host}/`, `http://${headers.host}/worker.js`];
  if (path !== "/worker.js" || !browsersOwn.includes(headers.referer)) assert.equal(headers.referer, undefined, target);
  assert.equal(secrets.in(text), undefined, text);
}

/** Waits until the worker has everything, and its version is the one in use. */
const stocked = (page) => page.until(async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  return registration?.active?.state === "activated" && navigator.serviceWorker.controller !== null && !registration.installing;
});

/** The names of the caches, and the addresses in them. */
const cacheKeys = (page) => page.evaluate(async () => {
  const all = [];
  for (const name of await caches.keys()) all.push(name, ...(await (await caches.open(name)).keys()).map(({ url }) => url));
  return all;
});

/** What the walk has to have met of a plan's own screens and the navigator's; N is any number, and * whatever is there. */
const met = {
  demo: ["/", "/facts", "/guide", "/sources", "/about", "/device", "/device/wipe", "/say-back", "/print", "/calendar", "/import", "/link", "/link/part", "/link/lock",
    "/split", "/split/suggest", "/duty/N", "/duty/N/change", "/helper/N", "/helper/new", "/me"],
  desk: ["/desk", "/desk/rows", "/desk/moved", "/desk/settings", "/desk/settings/file", "/desk/class/*", "/desk/cards"],
};

async function front(page, url) {
  await page.goto(url);
  await page.until(() => document.querySelector("#title") !== null && document.querySelector("#waiting") === null);
}

for (const engine of engines)
  test(`${engine}: nothing leaves the device`, () =>
    withRecorder(site, {}, (host) => withPage(engine, phone, async (page) => {
      const own = await filesOfThePage(site);
      const [secrets, titles, messages, asked] = [new Secrets(), new Set(), [], new Set()];
      const seen = ({ title, hash }) => { secrets.add(hash.slice(1)); titles.add(title); };
      const walks = async () => {
        for (const start of ["demo", "desk"]) {
          for (const word of ["start", start]) { // by way of another place: the walk before may have ended at this one
            await page.evaluate((w) => { location.hash = w; }, word);
            await at(page, { start: "/start", demo: "/", desk: "/desk" }[word]);
          }
          if (start === "desk") { // that of the example hospital
            await page.until(() => document.querySelector("#notice-common .second") !== null);
            await page.click("#notice-common .second");
            await page.until(() => location.hash.startsWith("#desk.") && document.querySelector("#notice-common") === null);
          }
          const { screens } = await walk(page, seen);
          const isMet = (screen) => (screen.endsWith("*") ? [...screens].some((has) => has.startsWith(screen.slice(0, -1))) : screens.has(screen));
          for (const screen of met[start]) assert.ok(isMet(screen), `the walk did not meet ${screen}: ${[...screens].sort().join(" ")}`);
        }
      };

      // The first visit, while the page comes: its own files, and each of them bare.
      await front(page, host.url);
      await walks();
      await stocked(page);
      assert.ok(host.asked.length > 0);
      assert.ok(secrets.size > 1000, "fragments were seen");

      // The whole walk once more, now that all has come: nothing is asked for. That a browser looks for a newer
      // worker is its own doing (Service Workers, "Soft Update"), and it may do so at any time.
      await front(page, host.url);
      await stocked(page);
      const before = host.asked.length;
      await walks();
      assert.deepEqual(host.asked.slice(before).map(({ target }) => target).filter((target) => target !== "/worker.js"), [], "after the page has loaded");
      for (const request of host.asked) bare(request, own, secrets);

      for (const url of await page.requests()) asked.add(url.split("?")[0]);
      for (const url of asked) {
        if (url.startsWith("blob:")) continue; // a file that the page made, handed over on the device
        assert.ok(own.has(new URL(url).pathname) && new URL(url).origin === new URL(host.url).origin, url);
      }
      messages.push(...(await page.messages()));
      const keys = await cacheKeys(page);
      assert.ok(keys.length > 5);
      for (const text of [...messages, ...keys, ...asked]) assert.equal(secrets.in(text), undefined, text);
      for (const title of titles) assert.equal(secrets.in(title, []), undefined, title);
    })));
