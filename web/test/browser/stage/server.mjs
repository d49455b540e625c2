// Serves the shell, unbundled, with a stand-in core, under the policy that the real site
// has: no inline script, no eval, nothing from elsewhere.

import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { join } from "node:path";
import { compileShell, top } from "../../compile.mjs";

const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'; "
  + "worker-src 'self'; style-src 'self'; img-src 'self' data:; form-action 'none'; base-uri 'none'";

/** The smallest module there is: WebAssembly's magic word and its version. */
const emptyModule = Buffer.from("0061736d01000000", "hex");

/** The whole core's module is told from the near one's by a number of its own that it exports, as "whole". */
const wholeModule = Buffer.concat([emptyModule, Buffer.from("0606017f0041000b", "hex"), Buffer.from([7, 9, 1, 5]), Buffer.from("whole"), Buffer.from([3, 0])]);

/**
 * Starts on a free port of this machine. Paths: "/" the page; "/?core=missing" its core is
 * not there; "/?core=plain" it has a content type that streaming refuses; "/?ahead=answers" the
 * worker answers the first question, and the page's own core comes when letCore() is called; "/?ahead=leaves" that
 * worker leaves it to the whole core;
 * "/?storage=blocked" storage throws; "/?storage=sparing" pages are asked to load little.
 */
export async function startStage() {
  const shell = compileShell();
  const stage = join(top, "web/test/browser/stage");
  const whole = { state: "there", asked: 0, waiting: [] };
  const server = createServer(async (request, response) => {
    const { pathname, searchParams } = new URL(request.url, "http://stage");
    if (pathname === "/whole.wasm") {
      whole.asked++;
      if (whole.state === "held") await new Promise((go) => whole.waiting.push(go));
    }
    const lost = pathname === "/whole.wasm" && whole.state === "lost";
    const [type, body] = lost ? ["text/plain", undefined] : await answer(pathname, searchParams, { shell, stage });
    response.writeHead(body === undefined ? 404 : 200, {
      "content-type": type, "content-security-policy": policy, "cache-control": "no-store",
    });
    response.end(body ?? "");
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  return {
    url: `http://127.0.0.1:${server.address().port}/`,
    /** The whole core's file: "there", "lost" or "held"; what was held goes on. */
    whole(state) {
      whole.state = state;
      for (const go of whole.waiting.splice(0)) go();
    },
    wholeAsked: () => whole.asked,
    close() { server.closeAllConnections(); server.close(); },
  };
}

async function answer(path, search, { shell, stage }) {
  if (path === "/") return ["text/html", await page(search, stage)];
  if (path === "/page.css") return ["text/css", "#lists { margin-top: 3000px; height: 2000px } [hidden] { display: none }"];
  if (path === "/before.js") return ["text/javascript", ""];
  if (path === "/core.wasm") return ["application/wasm", emptyModule];
  if (path === "/whole.wasm") return ["application/wasm", wholeModule];
  if (path === "/plain.wasm") return ["text/plain", emptyModule];
  if (path === "/blocked.js" || path === "/sparing.js" || path === "/core.js" || path === "/ahead.js" || path === "/answers.js" || path === "/leaves.js" || path === "/slowly.js") return ["text/javascript", await readFile(join(stage, path))];
  if (path === "/idiomorph.js") {
    return ["text/javascript", await readFile(join(top, "node_modules/idiomorph/dist/idiomorph.esm.js"))];
  }
  if (/^\/shell\/\w+\.js$/.test(path)) return ["text/javascript", linked(await readFile(join(shell, path.slice(7)), "utf8"))];
  return ["text/plain", undefined];
}

async function page(search, stage) {
  let html = await readFile(join(stage, "page.html"), "utf8");
  if (search.get("core")) html = html.replace("/core.wasm", `/${search.get("core")}.wasm`);
  if (search.get("ahead")) html = html.replace("/ahead.js", `/${search.get("ahead")}.js`).replace("/before.js", "/slowly.js");
  if (search.get("storage")) html = html.replace("/before.js", `/${search.get("storage")}.js`);
  return html;
}

// The build resolves bare names; in a browser they need an address. (An import map would
// be an inline script, which the policy forbids.)
function linked(code) {
  return code.replace('"idiomorph"', '"/idiomorph.js"').replace('"wasm_exec"', '"/core.js"');
}
