// The real site with its core held back, to look at what stands there before it has come.

import { createServer } from "node:http";

/**
 * Serves what site serves, on a free port; the core only after letGo(). again() holds it back
 * from there on, lose() breaks the line in the middle of it until letGo(), gone() has none until then,
 * next() waits until it is asked for once more (at most 30 s), close() ends the server. The worker that
 * would keep a core in the browser is not there.
 */
export async function holdBack(site) {
  const waiting = [];
  const watching = [];
  let open = false;
  let lost = false;
  let none = false;
  const server = createServer(async (request, response) => {
    if (/^\/(core|whole)-/.test(request.url)) watching.splice(0).forEach((tell) => tell());
    if (/^\/(core|whole)-/.test(request.url) && !open) await new Promise((go) => waiting.push(go));
    if (request.url === "/worker.js" || (none && /^\/(core|whole)-/.test(request.url))) {
      response.writeHead(404).end();
      return;
    }
    const from = await fetch(new URL(request.url, site), { headers: { "accept-encoding": "identity" } });
    const type = from.headers.get("content-type");
    if (/^\/(core|whole)-/.test(request.url) && lost) {
      response.writeHead(from.status, { "content-type": type, "content-length": from.headers.get("content-length") });
      response.write(Buffer.from(await from.arrayBuffer()).subarray(0, 200_000));
      setTimeout(() => response.destroy(), 200);
      return;
    }
    let body = Buffer.from(await from.arrayBuffer());
    // Some engines would wait for a preloaded file before they say that the page is there.
    if (type.startsWith("text/html")) body = body.toString().replace(/<link rel="preload"[^>]*>/, "");
    response.writeHead(from.status, { "content-type": type, "cache-control": "no-store" });
    response.end(body);
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  return {
    url: `http://127.0.0.1:${server.address().port}/`,
    again() { open = false; },
    gone() { none = open = true; waiting.splice(0).forEach((go) => go()); },
    lose() { lost = open = true; waiting.splice(0).forEach((go) => go()); },
    next() {
      return new Promise((tell, fail) => {
        const late = setTimeout(() => fail(new Error("waited 30 s for the core's file to be asked for again")), 30_000);
        watching.push(() => { clearTimeout(late); tell(); });
      });
    },
    letGo() { lost = none = false; open = true; waiting.splice(0).forEach((go) => go()); },
    close() { open = true; waiting.splice(0).forEach((go) => go()); server.closeAllConnections(); server.close(); },
  };
}
