// The site on another port, with a record of every request as it came over the line: its first line and all
// its headers. It can be a host that sends no headers of its own, such as a folder on a plain web server.

import { once } from "node:events";
import { createServer, request as ask } from "node:http";

/** What a plain web server knows of a file: the kind, by its name. */
const kinds = { "": "text/html", html: "text/html", js: "text/javascript", css: "text/css", svg: "image/svg+xml", png: "image/png", woff2: "font/woff2", wasm: "application/wasm" };

/**
 * Runs work with { url, asked }: asked are the requests so far, each { method, target, text }, where text is all
 * that was sent. With plain, answers come with a kind and a length only. change(body, path) may change a static page.
 */
export async function withRecorder(site, { plain = false, change } , work) {
  const asked = [];
  const server = createServer((request, response) => {
    const { method, url: target, rawHeaders } = request;
    let body = "";
    request.setEncoding("latin1").on("data", (part) => { body += part; });
    request.on("end", () => {
      const lines = [`${method} ${target} HTTP/${request.httpVersion}`];
      for (let i = 0; i < rawHeaders.length; i += 2) lines.push(`${rawHeaders[i]}: ${rawHeaders[i + 1]}`);
      asked.push({ method, target, headers: request.headers, text: `${lines.join("\n")}\n\n${body}` });
      forward(site, request, response, { plain, change });
    });
  });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  try {
    await work({ url: `http://127.0.0.1:${server.address().port}/`, asked });
  } finally {
    server.closeAllConnections();
    server.close();
  }
}

function forward(site, request, response, { plain, change }) {
  const headers = { ...request.headers, host: new URL(site).host };
  const [path] = request.url.split("?");
  const page = /(?:\/|\.html)$/.test(path);
  if (plain || (change && page)) { // what is sent is not what the site said of it
    headers["accept-encoding"] = "identity";
    delete headers["if-none-match"];
  }
  ask(new URL(request.url, site), { method: request.method, headers }, (from) => {
    const parts = [];
    from.on("data", (part) => parts.push(part));
    from.on("end", () => {
      let body = Buffer.concat(parts);
      if (change && page) body = Buffer.from(change(body.toString(), path));
      const kind = kinds[/(?:\.(\w+))?$/.exec(path)[1] ?? ""] ?? "application/octet-stream";
      const said = plain ? { "content-type": from.statusCode === 200 ? kind : "text/plain" } : { ...from.headers };
      if (change && page) delete said.etag;
      response.writeHead(from.statusCode, { ...said, ...(request.method === "HEAD" || from.statusCode === 304 ? {} : { "content-length": body.length }) });
      response.end(body);
    });
  }).on("error", () => response.destroy()).end();
}
