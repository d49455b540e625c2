// A host of the real page that can be stopped, cut off in the middle of a file, or given another
// version of the page. Version 1 is the page of NEWEL_SITE; version 2 is made of it by changing its
// script, a file that is loaded later and its static pages, with everything that follows from that.
//
// Each answer says in a header of which version it is.

import { createHash } from "node:crypto";
import { once } from "node:events";
import { createServer } from "node:http";

/** The folder on the host: the page must not need the top one. */
const folder = "/care/newel/";

/** What version 2 says more than version 1, in the sentences beside #app and in the script. */
export const mark = " Version two.";

/** Fetches the page of a site as name → { type, policy, body }, with what worker.js lists. */
async function versionOf(site) {
  const files = new Map();
  const get = async (name) => {
    const response = await fetch(site + name);
    if (!response.ok) throw new Error(`${site}${name} gave status ${response.status}`);
    files.set(name, { type: response.headers.get("content-type"), policy: response.headers.get("content-security-policy"), body: Buffer.from(await response.arrayBuffer()) });
  };
  await get("worker.js");
  const { version, list } = listed(files);
  for (const [name] of list) await get(name);
  for (const name of ["icon-192.png", "icon-512.png", "icon-maskable-512.png", "apple-touch-icon.png"]) await get(name);
  return { version, files };
}

function listed(files) {
  const [, version, list] = /^const newelVersion="(\w+)",newelFiles=(.*);\n/.exec(files.get("worker.js").body.toString());
  return { version, list: JSON.parse(list) };
}

/** The same page with another script, another late file and another sentence. */
function changed({ version, files }) {
  const next = { version: "TESTTWO2", files: new Map(files) };
  const named = (start) => [...files.keys()].find((name) => name.startsWith(start) && name.endsWith(".js"));
  const renames = [[named("page-"), "page-TESTTWO2.js"], [named("qr-"), "qr-TESTTWO2.js"], [version, next.version]];
  const rename = (text) => renames.reduce((all, [from, to]) => all.replaceAll(from, to), text);
  for (const [name, one] of files) {
    if (!/\.(html|js)$|^$/.test(name)) continue;
    let text = rename(one.body.toString());
    if (name.endsWith(".js") && name !== "worker.js") text += "\nglobalThis.newelTest = 2;\n";
    text = text.replace(/(<p data-why="core" hidden>)([^<]*)/, `$1$2${mark}`);
    next.files.delete(name);
    next.files.set(rename(name), { ...one, body: Buffer.from(text) });
  }
  const hash = (name) => `sha256-${createHash("sha256").update(next.files.get(name).body).digest("base64")}`;
  for (const [name, one] of next.files) { // the pages hold their script to its hash
    if (!/\.html$|^$/.test(name)) continue;
    const text = one.body.toString().replace(/( src="(page-\w+\.js)" integrity=)"[^"]+"/, (_, before, script) => `${before}"${hash(script)}"`);
    next.files.set(name, { ...one, body: Buffer.from(text) });
  }
  const worker = next.files.get("worker.js");
  let code = worker.body.toString();
  for (const [name, integrity] of listed(next.files).list) {
    code = code.replace(`"${name}","${integrity}"`, `"${name}","${hash(name)}"`);
  }
  next.files.set("worker.js", { ...worker, body: Buffer.from(code) });
  return next;
}

/** Starts a host with version 1 on a free port of this machine. */
export async function startHost(site) {
  const first = await versionOf(site);
  const host = new Host([first, changed(first)]);
  await host.start();
  return host;
}

class Host {
  /** Names that were asked for, in order. */
  asked = [];
  /** Names with what is wrong with them: "cut" in the middle, or "damaged". */
  faults = new Map();
  #versions;
  #now = 1;
  #server;
  #port = 0;

  constructor(versions) { this.#versions = versions; }

  get url() { return `http://127.0.0.1:${this.#port}${folder}`; }

  /** Which version the host has from here on. */
  serve(number) { this.#now = number; }

  /** The hashed names of a version, and its own. */
  names(number) { return [...this.#versions[number - 1].files.keys()].filter((name) => /-[A-Z2-7]{8}\./.test(name)); }
  version(number) { return this.#versions[number - 1].version; }

  async start() {
    this.#server = createServer((request, response) => this.#answer(request, response));
    this.#server.listen(this.#port, "127.0.0.1");
    await once(this.#server, "listening");
    this.#port = this.#server.address().port;
  }

  /** No connection is answered or left open. */
  async stop() {
    const closed = once(this.#server, "close");
    this.#server.close();
    this.#server.closeAllConnections();
    await closed;
  }

  #answer(request, response) {
    const path = new URL(request.url, "http://host").pathname;
    const name = path.startsWith(folder) ? path.slice(folder.length) : undefined;
    this.asked.push(name ?? path);
    const file = this.#versions[this.#now - 1].files.get(name);
    if (!file) {
      response.writeHead(404, { "content-type": "text/plain" }).end("nothing here");
      return;
    }
    const fault = this.faults.get(name);
    response.writeHead(200, {
      "content-type": file.type, "content-security-policy": file.policy, "content-length": file.body.length, "x-version": this.#now,
      "cache-control": /-[A-Z2-7]{8}\./.test(name) ? "public, max-age=31536000, immutable" : "no-cache",
    });
    if (fault === "cut") response.write(file.body.subarray(0, file.body.length / 2), () => request.socket.destroy());
    else response.end(fault === "damaged" ? Buffer.concat([file.body.subarray(1), Buffer.from(" ")]) : file.body);
  }
}
