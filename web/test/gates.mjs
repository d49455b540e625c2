// What every document of the catalogue has to stand, in functions that run in the page: each
// looks at the document as it is and gives what is wrong as a list of sentences.

/**
 * What axe finds by all rules of WCAG 2.0 to 2.2 at A and AA and by its best practices. Contrast is not
 * among them: it takes axe longer than everything else together, and `faint` asks for more. `off`: rules that
 * do not apply.
 */
export async function axeFindings(off = []) {
  const values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
  const found = await globalThis.axe.run(document, {
    runOnly: { type: "tag", values }, resultTypes: ["violations"],
    rules: { "target-size": { enabled: true }, ...Object.fromEntries(["color-contrast", ...off].map((id) => [id, { enabled: false }])) },
  });
  return found.violations.flatMap(({ id, nodes }) => nodes.slice(0, 3).map((n) => `axe ${id}: ${n.target.join(" ")} ${n.html.slice(0, 90)}`));
}

/**
 * Text that stands out too little from what is behind it: 4.5:1, 3:1 where it is large (WCAG 2.2,
 * 1.4.3), 7:1 where it is a time or a warning (1.4.6). The ratio is WCAG's own (relative luminance and
 * contrast ratio); what is behind is the nearest ground that is not clear, so a picture's shapes count
 * by their own colours.
 */
export function faint(urgent) {
  const canvas = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  const known = new Map();
  const channels = (colour) => {
    if (!known.has(colour)) {
      canvas.clearRect(0, 0, 1, 1);
      canvas.fillStyle = colour;
      canvas.fillRect(0, 0, 1, 1);
      known.set(colour, [...canvas.getImageData(0, 0, 1, 1).data]);
    }
    return known.get(colour);
  };
  const linear = (c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4);
  const luminance = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  const ratio = (a, b) => {
    const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p);
    return (x + 0.05) / (y + 0.05);
  };
  const grounds = new Map();
  const ground = (e) => {
    if (e === null) return channels(getComputedStyle(document.documentElement).getPropertyValue("--paper").trim() || "white");
    if (!grounds.has(e)) {
      const colour = channels(getComputedStyle(e).backgroundColor);
      grounds.set(e, colour[3] === 255 ? colour : ground(e.parentElement));
    }
    return grounds.get(e);
  };
  const found = new Map();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const e = node.parentElement;
    if (node.data.trim() === "" || e.closest("option, datalist, .unseen, .skip, svg, :disabled") || !e.checkVisibility({ visibilityProperty: true })) continue;
    const style = getComputedStyle(e);
    const size = Number.parseFloat(style.fontSize);
    const large = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
    const least = e.closest(urgent) ? 7 : large ? 3 : 4.5;
    const has = ratio(channels(style.color), ground(e));
    if (has >= least) continue;
    const what = `${e.tagName}.${e.className}: ${has.toFixed(2)}:1, not ${least}:1`;
    if (!found.has(what)) found.set(what, `faint ${what}: ${node.data.trim().slice(0, 30)}`);
  }
  return [...found.values()];
}

/** What can be tapped and is lower or narrower than `least`. Links in a line of text may be (WCAG 2.2, 2.5.8, "inline"). */
export function smallTargets(least) {
  const box = (e) => e.getBoundingClientRect();
  const shown = (e) => e.checkVisibility({ visibilityProperty: true }) && e.getClientRects().length > 0 && !e.closest(".unseen, .skip");
  const inLine = (e) => {
    if (e.tagName !== "A" || getComputedStyle(e).display !== "inline") return false;
    const around = e.closest("p, li, dd, dt, td, th, h1, h2, h3, h4, summary, label, caption, figcaption, div");
    const text = (n) => n.textContent.replace(/\s+/g, "");
    return around !== null && text(around).length > [...around.querySelectorAll("a, button")].reduce((n, a) => n + text(a).length, 0);
  };
  return [...document.querySelectorAll("a[href], button, summary, select, textarea, input:not([type=hidden])")].filter((e) => shown(e) && !inLine(e)).flatMap((e) => {
    const boxes = e.matches("[type=checkbox], [type=radio]") ? [e, ...e.labels].map(box) : [box(e)];
    const high = Math.max(...boxes.map((b) => b.bottom)) - Math.min(...boxes.map((b) => b.top));
    const wide = Math.max(...boxes.map((b) => b.right)) - Math.min(...boxes.map((b) => b.left));
    if (high >= least - 0.5 && wide >= least - 0.5) return [];
    const named = e.id ? `#${e.id}` : e.className ? `.${e.className}` : "";
    return [`small ${e.tagName}${named} in .${e.parentElement.className || e.parentElement.tagName}: ${wide.toFixed(0)} by ${high.toFixed(0)} px: ${(e.textContent || e.name || "").trim().slice(0, 30)}`];
  });
}

/**
 * Text that forced colours would make invisible: the browser puts a plate of the system's ground behind
 * letters (CSS Color Adjustment 1, 3.1), so letters of that very colour need an exception of their own.
 */
export function plated() {
  const ground = getComputedStyle(document.body).backgroundColor;
  const found = new Set();
  for (const e of document.querySelectorAll("body *")) {
    if (e.closest("svg, .unseen, .skip") || !e.checkVisibility() || ![...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim() !== "")) continue;
    const style = getComputedStyle(e);
    if (style.color === ground && style.forcedColorAdjust !== "none") found.add(`plated: ${e.tagName}.${e.className}: ${e.textContent.trim().slice(0, 30)}`);
  }
  return [...found];
}

/** What still moves although the device asks for less motion (WCAG 2.2, 2.3.3). */
export function moving() {
  const found = new Set(document.getAnimations().map((a) => `moves: ${a.animationName ?? a.transitionProperty}`));
  for (const e of document.querySelectorAll("body *")) {
    const style = getComputedStyle(e);
    const long = (times) => times.split(",").some((t) => Number.parseFloat(t) > 0.01);
    if (long(style.transitionDuration)) found.add(`moves: ${e.tagName}.${e.className?.baseVal ?? e.className} transition`);
    if (style.animationName !== "none" && long(style.animationDuration)) found.add(`moves: ${e.tagName}.${e.className?.baseVal ?? e.className} animation`);
  }
  if (getComputedStyle(document.documentElement).scrollBehavior === "smooth") found.add("moves: smooth scrolling");
  return [...found];
}

/** What lies over more than a third of a low screen: fixed and sticky parts (WCAG 2.2, 1.4.10 and 2.4.11). */
export function covering() {
  const found = [];
  let high = 0;
  for (const e of document.querySelectorAll("body *")) {
    const { position } = getComputedStyle(e);
    if ((position === "fixed" || position === "sticky") && e.checkVisibility()) high += e.getBoundingClientRect().height;
  }
  if (high > innerHeight / 3) found.push(`covering: what stays in place is ${high.toFixed(0)} px high on a screen of ${innerHeight} px`);
  return found;
}

/**
 * What a document is apart from its words: its elements, their attributes, which of them hold text, and
 * which labels are the same. Documents that are alike in this get the same from axe (whose rules, but for
 * the language's, do not read words) and from the style, which knows no words either.
 */
export function skeleton() {
  const said = new Map();
  const word = (text) => { if (!said.has(text)) said.set(text, said.size); return said.get(text); };
  const loose = /^(href|value|content|lang|hreflang|dir|datetime|d|x|y|x1|x2|y1|y2|width|height|viewbox|transform|points|r|cx|cy|data-.*)$/i;
  const spoken = /^(aria-label|title|alt|placeholder)$/;
  const all = [];
  for (const e of document.querySelectorAll("*")) {
    const attributes = [...e.attributes].map(({ name, value }) => (spoken.test(name) ? `${name}=${word(value)}` : loose.test(name) ? name : `${name}=${value}`));
    const text = /^H[1-6]$|^LEGEND$|^CAPTION$/.test(e.tagName) ? word(e.textContent) : [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim() !== "");
    all.push(`${e.tagName}[${attributes.join(" ")}]${e.querySelectorAll(":scope > *").length}${text}`);
  }
  return crypto.subtle.digest("SHA-256", new TextEncoder().encode(all.join("\n"))).then((sum) => [...new Uint8Array(sum)].join(" "));
}

/** Spaces text as WCAG 2.2, 1.4.12 has it, or takes that away again. */
export function spaceText(on) {
  const sheet = new CSSStyleSheet();
  if (on) sheet.replaceSync("* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-block-end: 2em !important; }");
  document.adoptedStyleSheets = [sheet];
}

/** Pictures of which nothing is seen in forced colours: no shape and no letter that differs from what is behind. */
export function lostPictures() {
  const found = [];
  for (const svg of document.querySelectorAll("svg")) {
    if (!svg.checkVisibility() || svg.getBoundingClientRect().width === 0) continue;
    let ground = "rgba(0, 0, 0, 0)";
    for (let e = svg; e && ground === "rgba(0, 0, 0, 0)"; e = e.parentElement) ground = getComputedStyle(e).backgroundColor;
    if (ground === "rgba(0, 0, 0, 0)") ground = getComputedStyle(document.body).backgroundColor;
    const stands = (colour) => colour !== "none" && colour !== ground && !/^rgba\(.*, 0\)$/.test(colour);
    const shapes = [...svg.querySelectorAll("path, line, rect, circle, ellipse, polygon, polyline")].filter((e) => !e.closest("defs, pattern, clipPath, mask"));
    const texts = [...svg.querySelectorAll("text")];
    if (shapes.length > 0 && !shapes.some((e) => { const s = getComputedStyle(e); return stands(s.fill) || (stands(s.stroke) && Number.parseFloat(s.strokeWidth) > 0); })) found.push(`lost: ${svg.getAttribute("class")} ${svg.getAttribute("aria-label") ?? ""}`);
    for (const e of texts) if (!stands(getComputedStyle(e).fill)) { found.push(`lost: the text "${e.textContent.trim().slice(0, 20)}" in ${svg.getAttribute("class")}`); break; }
  }
  return found;
}
