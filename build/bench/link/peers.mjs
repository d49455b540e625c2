// The peers of the link: the same plan packed by other people's libraries. Each packs, is
// unpacked again and has to give back what it was given; the answer is the length of what
// would stand in an address, in characters. Bytes are written as base64url without padding.
//
// JSON, plain and compressed, and CBOR hold what they are handed, stamps included. Yjs and
// Automerge keep their own history: they are led through the plan's steps, each device with
// a document of its own, and change only what differs. Lists of words are sets to them and
// duties lie under their numbers, which is how a plan would be kept in them to be merged.

import assert from "node:assert/strict";
import { brotliCompressSync, brotliDecompressSync, constants, deflateRawSync, inflateRawSync } from "node:zlib";
import * as Automerge from "@automerge/automerge";
import * as cbor from "cborg";
import lzString from "lz-string";
import * as Y from "yjs";
import { rounds, serve, version } from "../../peers/lines.mjs";

serve({ about, sizes, decode, encode });

function about() {
  return { version: ["lz-string", "cborg", "yjs", "@automerge/automerge"].map((name) => `${name} ${version(name)}`).join(", ") };
}

const deflate = (bytes) => deflateRawSync(bytes, { level: 9 });
const base64url = (bytes) => Buffer.from(bytes).toString("base64url");

/** plan: what the packers get; steps: how it grew. */
function sizes({ plan, steps }) {
  const json = Buffer.from(JSON.stringify(plan));
  const same = (packed, unpack) => {
    assert.deepEqual(unpack(packed), plan);
    return packed;
  };
  const parse = (bytes) => JSON.parse(bytes.toString());
  const brotli = { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: json.length } };
  const lz = lzString.compressToEncodedURIComponent(json.toString());
  assert.deepEqual(JSON.parse(lzString.decompressFromEncodedURIComponent(lz)), plan);
  return {
    "json": base64url(json).length,
    "json-deflate": base64url(same(deflate(json), (packed) => parse(inflateRawSync(packed)))).length,
    "json-lz-string": lz.length,
    "json-brotli": base64url(same(brotliCompressSync(json, brotli), (packed) => parse(brotliDecompressSync(packed)))).length,
    "cbor-deflate": base64url(same(deflate(cbor.encode(plan)), (packed) => cbor.decode(inflateRawSync(packed)))).length,
    "yjs-deflate": base64url(deflate(inYjs(steps))).length,
    "automerge": base64url(inAutomerge(steps)).length,
  };
}

/** A plan as nested maps. */
function tree(value) {
  if (Array.isArray(value)) {
    return Object.fromEntries(value.map((item) => {
      if (typeof item === "string") return [item, true];
      const { id, ...rest } = item;
      return [String(id), tree(rest)];
    }));
  }
  if (typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, tree(part)]));
}

const isMap = (value) => typeof value === "object" && value !== null;

/** Writes what differs between two trees, through set(path, key, value) and remove. */
function differences(before, after, path, { set, remove }) {
  for (const key of Object.keys(before)) if (!(key in after)) remove(path, key);
  for (const [key, value] of Object.entries(after)) {
    if (isMap(value) && isMap(before[key])) differences(before[key], value, [...path, key], { set, remove });
    else if (before[key] !== value) set(path, key, value);
  }
}

/** Leads a library through the steps; gives what the last device has. */
function replay(steps, { fresh, change, join, read }) {
  const docs = new Map();
  let last;
  for (const { by, from, plan } of steps) {
    if (from !== null) docs.set(by, join(docs.get(by) ?? fresh(by), docs.get(from), by));
    else docs.set(by, change(docs.get(by) ?? fresh(by), tree(plan)));
    last = docs.get(by);
  }
  assert.deepEqual(read(last), tree(steps.at(-1).plan));
  return last;
}

function inYjs(steps) {
  const make = (value) => (isMap(value) ? new Y.Map(Object.entries(value).map(([key, part]) => [key, make(part)])) : value);
  const at = (doc, path) => path.reduce((map, key) => map.get(key), doc.getMap("plan"));
  const read = (doc) => doc.getMap("plan").toJSON();
  const doc = replay(steps, {
    read,
    fresh(by) {
      const made = new Y.Doc();
      made.clientID = by;
      return made;
    },
    change(doc, next) {
      doc.transact(() => differences(read(doc), next, [], {
        set: (path, key, value) => at(doc, path).set(key, make(value)),
        remove: (path, key) => at(doc, path).delete(key),
      }));
      return doc;
    },
    join(doc, other) {
      Y.applyUpdate(doc, Y.encodeStateAsUpdate(other));
      return doc;
    },
  });
  const update = Y.encodeStateAsUpdateV2(doc);
  const again = new Y.Doc();
  Y.applyUpdateV2(again, update);
  assert.deepEqual(read(again), read(doc));
  return update;
}

// Texts go in as immutable ones: a text that two can type into at once costs more, and
// nothing in a plan is typed into like that.
function inAutomerge(steps) {
  const actor = (by) => by.toString(16).padStart(8, "0");
  const make = (value) => {
    if (typeof value === "string") return new Automerge.ImmutableString(value);
    return isMap(value) ? Object.fromEntries(Object.entries(value).map(([key, part]) => [key, make(part)])) : value;
  };
  const plain = (value) => {
    if (Automerge.isImmutableString(value)) return value.toString();
    return isMap(value) ? Object.fromEntries(Object.entries(value).map(([key, part]) => [key, plain(part)])) : value;
  };
  const at = (map, path) => path.reduce((inner, key) => inner[key], map);
  const read = (doc) => plain(Automerge.toJS(doc));
  const doc = replay(steps, {
    read,
    fresh: (by) => Automerge.init({ actor: actor(by) }),
    change: (doc, next) => Automerge.change(doc, { time: 0 }, (map) => differences(read(doc), next, [], {
      set: (path, key, value) => { at(map, path)[key] = make(value); },
      remove: (path, key) => { delete at(map, path)[key]; },
    })),
    join: (doc, other) => Automerge.merge(doc, other),
  });
  const saved = Automerge.save(doc);
  assert.deepEqual(read(Automerge.load(saved)), read(doc));
  return saved;
}

/** Times reading the plan out of what would stand in an address. */
function decode({ plan, count }) {
  const text = base64url(deflate(JSON.stringify(plan)));
  return { ms: rounds(count, () => JSON.parse(inflateRawSync(Buffer.from(text, "base64url")).toString())) };
}

/** Times writing it. */
function encode({ plan, count }) {
  return { ms: rounds(count, () => base64url(deflate(JSON.stringify(plan)))) };
}
