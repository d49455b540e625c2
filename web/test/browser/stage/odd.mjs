// The real site on a device that is not as it should be: a script that the test chooses runs before the
// page's own. Without headers of the site, so that frames stand for tabs; and without the service worker.

import { createServer } from "node:http";

/** Serves what site serves, on a free port. script is what runs first, "" at the beginning. */
export async function startOdd(site) {
  const odd = { url: "", script: "", close: () => { server.closeAllConnections(); server.close(); } };
  const server = createServer(async (request, response) => {
    if (request.url === "/odd.js") {
      response.writeHead(200, { "content-type": "text/javascript", "cache-control": "no-store" }).end(odd.script);
      return;
    }
    if (request.url === "/worker.js") {
      response.writeHead(404).end();
      return;
    }
    const from = await fetch(new URL(request.url, site), { headers: { "accept-encoding": "identity" } }).catch(() => undefined);
    if (!from) { // the page was left in the middle, or the site is gone: then the test says so
      response.writeHead(502).end();
      return;
    }
    const type = from.headers.get("content-type");
    let body = Buffer.from(await from.arrayBuffer());
    if (type.startsWith("text/html")) body = body.toString().replace(/<meta charset="?utf-8"?>/, '$&<script src="/odd.js"></script>').replace(/<link rel="?preload"?[^>]*>/g, "");
    response.writeHead(from.status, { "content-type": type });
    response.end(body);
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  odd.url = `http://127.0.0.1:${server.address().port}/`;
  return odd;
}
