// The only place where text becomes HTML, or the address of a script. Where the browser has Trusted
// Types (W3C), the page's policy (build/site/policy.go) has it refuse such text that did not come
// through here; where it has none, the same is checked. A policy can be made once, and only under the
// names that are listed there, so each of the page's two scripts has its own.

interface Checks {
  createHTML?(html: string, document?: "document"): string;
  createScriptURL?(url: string): string;
}

// The compiler's library does not know them yet. What a policy makes is an object; wherever it goes from
// here it is used like the text that it holds.
const types = (globalThis as { trustedTypes?: { createPolicy<C extends Checks>(name: string, checks: C): C } }).trustedTypes;

/** Elements that no answer of the core has: they run, load or redirect something. "<" is escaped in what people typed. */
const foreign = /<\/?(?:script|i?frame|frameset|object|embed|base|meta|link|style|template|noscript)\b/i;

/** A file beside the page, as the address of a script or a worker. Throws for any other. */
function createScriptURL(url: string): string {
  const full = new URL(url, document.baseURI).href;
  const folder = new URL(".", document.baseURI).href;
  if (!full.startsWith(folder)) throw new TypeError("a script from elsewhere is not loaded: it has to be a file of this page's folder");
  return full;
}

/** An answer of the core, as HTML. Throws where it has what no template of the core writes. */
function createHTML(html: string, document?: "document"): string {
  if (!document && foreign.test(html)) throw new TypeError("an answer of the core has an element that runs or loads something, so it is not shown");
  return html;
}

/** A policy is made when it is first needed: each of the scripts makes its own only. */
const made = new Map<string, Checks>();

function policy<C extends Checks>(name: "newel" | "newel-begin", checks: C): C {
  if (!made.has(name)) made.set(name, types?.createPolicy(name, checks) ?? checks);
  return made.get(name) as C;
}

const ours = { createHTML, createScriptURL };

/** What the core answered, for innerHTML. */
export const answerHTML = (html: string): string => policy("newel", ours).createHTML(html);

/** Another static page of this folder, for DOMParser: it stays a document in which nothing runs. */
export const pageHTML = (html: string): string => policy("newel", ours).createHTML(html, "document");

/** A worker's file. */
export const ownScript = (url: string): string => policy("newel", ours).createScriptURL(url);

/** The same in the script that stands in the page (begin.ts). */
export const ownScriptOfBegin = (url: string): string => policy("newel-begin", { createScriptURL }).createScriptURL(url);
