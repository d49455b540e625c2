// The worker's shelf over a stand-in for the browser's caches (Service Workers, 5.4: keys are
// addresses without what stands behind "#") and for its network.

import assert from "node:assert/strict";
import { join } from "node:path";
import test from "node:test";
import { compileShell } from "../compile.mjs";

const { Shelf, spared } = await import(join(compileShell("web/worker"), "worker/shelf.js"));

const scope = "https://clinic.example/care/";
const file = (name) => [name, `sha256-${name}`];
const names = ["icon.svg", "page-AAAAAAA2.js", "", "es.html", "core-CCCCCCC2.wasm", "whole-WWWWWWW2.wasm"];

/** Caches as a browser has them. Responses are kept as they are put in, and given as copies. */
class Caches {
  all = new Map();
  async open(name) {
    if (!this.all.has(name)) this.all.set(name, new Map());
    const cache = this.all.get(name);
    return {
      match: async (url) => cache.get(bare(url))?.clone(),
      put: async (url, response) => void cache.set(bare(url), response.clone()),
    };
  }
  async match(url, { cacheName } = {}) {
    for (const [name, cache] of this.all) {
      if ((cacheName === undefined || name === cacheName) && cache.has(bare(url))) return cache.get(bare(url)).clone();
    }
    return undefined;
  }
  async delete(name) { return this.all.delete(name); }
  async keys() { return [...this.all.keys()]; }
}

const bare = (url) => String(url).split("#")[0];

/** A host whose answers say which version they are of; asked holds what was asked for, and how. */
function host(version, faulty = () => undefined) {
  const asked = [];
  return {
    asked,
    async fetch(request) {
      asked.push([request.url.slice(scope.length), request.cache, request.integrity]);
      return faulty(request) ?? new Response(`${request.url.slice(scope.length)} of ${version}`);
    },
  };
}

const shelf = (version, caches, net, list = names) => new Shelf(scope, version, list.map(file), { caches, fetch: net.fetch, unpress: (bytes) => new Blob(["unpressed ", bytes]) });
const text = async (answer) => (await answer).text();

test("a core is fetched as it is sent, held to that hash, and kept as the module that comes of it", async () => {
  const [caches, net] = [new Caches(), host("1")];
  const list = ["core-ABCDEFG2.press", "whole-ABCDEFG2.press"];
  const mine = shelf("AAAAAAAA", caches, net, list);
  await mine.fill(true);
  assert.deepEqual(net.asked.map(([name, , integrity]) => [name, integrity]), [[list[0], `sha256-${list[0]}`]]);
  const core = await mine.answer(`${scope}core-ABCDEFG2.wasm`, false);
  assert.equal(core.headers.get("content-type"), "application/wasm", "browsers compile nothing else while it streams");
  assert.match(await core.text(), /^unpressed /);
  assert.match(await text(mine.answer(`${scope}whole-ABCDEFG2.wasm`, false)), /^unpressed /, "what was spared is made when it is asked for");
  assert.equal(net.asked.length, 2);
});

test("fills its cache in the order of the list, each file held to its hash, and fetches nothing twice", async () => {
  const [caches, net] = [new Caches(), host("1")];
  await shelf("AAAAAAAA", caches, net).fill(false);
  assert.deepEqual(net.asked.map(([name]) => name), names);
  assert.deepEqual(net.asked.map(([, , integrity]) => integrity), names.map((name) => `sha256-${name}`));
  assert.deepEqual(net.asked.map(([, cache]) => cache), ["no-cache", "default", "no-cache", "no-cache", "default", "default"],
    "what the browser has under a name with a hash is taken from there");
  await shelf("AAAAAAAA", caches, net).fill(false);
  assert.equal(net.asked.length, names.length);
});

test("half a version is none: nothing of it stays, and the one before is whole", async () => {
  const caches = new Caches();
  await shelf("AAAAAAAA", caches, host("1")).fill(false);
  const next = names.map((name) => name.replace("AAAAAAA2", "BBBBBBB2"));
  for (const faulty of [
    (request) => { if (request.url.endsWith("es.html")) throw new TypeError("the line is cut"); },
    (request) => request.url.endsWith("es.html") ? new Response("gone", { status: 404 }) : undefined,
    (request) => request.url.includes("page-") && request.cache !== "no-cache" ? new Response("", { status: 503 }) : undefined,
  ]) {
    await assert.rejects(shelf("BBBBBBBB", caches, host("2", faulty), next).fill(false));
    assert.deepEqual(await caches.keys(), [`newel ${scope} AAAAAAAA`]);
  }
  const first = shelf("AAAAAAAA", caches, host("", () => Response.error()));
  for (const name of names) assert.equal(await text(first.answer(scope + name, false)), `${name} of 1`);
});

test("a damaged copy that the browser keeps is asked for anew, once", async () => {
  const net = host("1", (request) => { if (request.cache === "default") throw new TypeError("integrity"); });
  await shelf("AAAAAAAA", new Caches(), net).fill(false);
  assert.deepEqual(net.asked.filter(([name]) => name.startsWith("core")).map(([, cache]) => cache), ["default", "reload"]);
});

test("the next version takes what has not changed from the one before, but never a page", async () => {
  const [caches, net] = [new Caches(), host("2")];
  await shelf("AAAAAAAA", caches, host("1")).fill(false);
  await shelf("BBBBBBBB", caches, net, names.map((name) => name.replace("AAAAAAA2", "BBBBBBB2"))).fill(false);
  assert.deepEqual(net.asked.map(([name]) => name), ["icon.svg", "page-BBBBBBB2.js", "", "es.html"]);
});

test("pages come from the version in use; a page that stands open since before gets its own files", async () => {
  const [caches, net] = [new Caches(), host("2")];
  await shelf("AAAAAAAA", caches, host("1")).fill(false);
  const next = shelf("BBBBBBBB", caches, net, names.map((name) => name.replace("AAAAAAA2", "BBBBBBB2")));
  await next.fill(false);
  net.asked.length = 0;
  for (const page of ["", "index.html", "?x=1", "#AbCd", "?chosen#AbCd"]) assert.equal(await text(next.answer(scope + page, true)), " of 2");
  assert.equal(await text(next.answer(`${scope}es.html?chosen`, true)), "es.html of 2");
  assert.equal(await text(next.answer(`${scope}es.html?AAAAAAAA`, false)), "es.html of 1");
  assert.equal(await text(next.answer(`${scope}es.html?BBBBBBBB`, false)), "es.html of 2");
  assert.equal(await text(next.answer(`${scope}page-AAAAAAA2.js`, false)), "page-AAAAAAA2.js of 1");
  assert.equal(await text(next.answer(`${scope}page-BBBBBBB2.js`, false)), "page-BBBBBBB2.js of 2");
  assert.deepEqual(net.asked, [], "all of it without a network");
  await next.tidy(() => false);
  assert.deepEqual(await caches.keys(), [`newel ${scope} BBBBBBBB`]);
});

test("what stands behind # is in no key, and what is not the page's own is left alone", async () => {
  const [caches, net] = [new Caches(), host("1")];
  const one = shelf("AAAAAAAA", caches, net);
  await one.fill(false);
  await one.answer(`${scope}#secret`, true);
  await one.answer(`${scope}core-CCCCCCC2.wasm#secret`, false);
  const keys = [...caches.all.values()].flatMap((cache) => [...cache.keys()]);
  assert.deepEqual(keys, names.map((name) => scope + name));
  for (const [address, navigates] of [
    ["https://clinic.example/", true], ["https://clinic.example/care", true], ["https://other.example/care/", true],
    [`${scope}catalogue/`, true], [`${scope}catalogue/style.css`, false], [`${scope}core-CCCCCCC2.wasm`, true], [`${scope}icon-192.png`, false],
    [`${scope}worker.js`, false],
  ]) assert.equal(one.answer(address, navigates), undefined, address);
});

test("tidying leaves the next version alone while it waits", async () => {
  const caches = new Caches();
  for (const version of ["AAAAAAAA", "BBBBBBBB"]) await shelf(version, caches, host(version)).fill(false);
  await shelf("AAAAAAAA", caches, host("1")).tidy(() => true);
  assert.equal((await caches.keys()).length, 2);
});

test("tidying touches no cache of another page on the same host", async () => {
  const caches = new Caches();
  for (const name of [`newel ${scope} OLDOLDOL`, "newel https://clinic.example/ AAAAAAAA", "pictures", `newel ${scope}more/ AAAAAAAA`]) await caches.open(name);
  const one = shelf("AAAAAAAA", caches, host("1"));
  await one.fill(false);
  await one.tidy(() => false);
  assert.deepEqual(await caches.keys(), ["newel https://clinic.example/ AAAAAAAA", "pictures", `newel ${scope}more/ AAAAAAAA`, `newel ${scope} AAAAAAAA`]);
});

test("who saves data gets the larger core when it is asked for, and then keeps it", async () => {
  const [caches, net] = [new Caches(), host("1")];
  const one = shelf("AAAAAAAA", caches, net);
  await one.fill(true);
  assert.deepEqual(net.asked.map(([name]) => name), names.filter((name) => !spared(name)));
  const last = names.at(-1);
  for (const times of [1, 2]) assert.equal(await text(one.answer(scope + last, false)), `${last} of 1`, `time ${times}`);
  assert.equal(net.asked.filter(([name]) => name === last).length, 1);
});

test("what the browser threw out is fetched again; a host that has another version by now is followed as it is", async () => {
  const caches = new Caches();
  const sound = host("1");
  assert.equal(await text(shelf("AAAAAAAA", caches, sound).answer(scope, true)), " of 1");
  assert.equal(caches.all.get(`newel ${scope} AAAAAAAA`).size, 1);
  const later = host("2", (request) => { if (request.integrity) throw new TypeError("integrity"); });
  assert.equal(await text(shelf("BBBBBBBB", new Caches(), later).answer(scope, true)), " of 2");
});

test("once everything was removed, nothing is kept again", async () => {
  const caches = new Caches();
  const closed = shelf("AAAAAAAA", caches, host("1"));
  closed.close();
  assert.equal(await text(closed.answer(scope, true)), " of 1");
  assert.equal(caches.all.size, 0);
});

// Fetch Standard, 4.3: a navigation refuses an answer that was redirected.
test("an answer that was redirected is kept as one that was not", async () => {
  const caches = new Caches();
  const moved = host("1", (request) => {
    const response = new Response("moved", { headers: { "content-type": "text/html" } });
    if (request.url.endsWith("es.html")) Object.defineProperty(response, "redirected", { value: true });
    return response;
  });
  const one = shelf("AAAAAAAA", caches, moved);
  await one.fill(false);
  const answer = await one.answer(`${scope}es.html`, true);
  assert.deepEqual([answer.redirected, answer.headers.get("content-type"), await answer.text()], [false, "text/html", "moved"]);
});
