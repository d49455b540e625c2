// A QR code, drawn as SVG. This file and its library are a file of their own, loaded only
// when somebody opens the fold with the code.
//
// The library is lean-qr 2.7.4. Compared with qr 0.7.0 and qrcode-generator 2.0.4, each
// bundled for one call: 3.5 kB (brotli) against 5.6 and 6.8. All three are MIT (qr also
// Apache-2.0), need nothing else, and had a release in the last three months. lean-qr
// writes numbers inside a text in fewer bits and raises the error correction as far as the
// same size allows, which the other two leave to the caller. zbar reads what it draws in
// web/test/browser/link.test.mjs.

import { correction, generate } from "lean-qr";

/** The empty edge that readers need, in modules (ISO/IEC 18004). */
const quiet = 4;

const namespace = "http://www.w3.org/2000/svg";

/** Draws text as a code; label is read out in its place. */
export function drawCode(text: string, label: string): SVGSVGElement {
  const code = generate(text, { minCorrectionLevel: correction.L, maxCorrectionLevel: correction.M });
  const side = code.size + 2 * quiet;
  const svg = make("svg", { viewBox: `0 0 ${side} ${side}`, role: "img", "aria-label": label, "shape-rendering": "crispEdges" });
  // Dark on white also where the page is dark: some readers do not know the reverse.
  svg.append(make("rect", { width: `${side}`, height: `${side}`, fill: "#fff" }), make("path", { d: squares(code), fill: "#000" }));
  return svg as SVGSVGElement;
}

/** One path of all dark modules, a run at a time: seams between squares would show. */
function squares(code: { readonly size: number; get(x: number, y: number): boolean }): string {
  let path = "";
  for (let y = 0; y < code.size; y++) {
    for (let x = 0; x < code.size; x++) {
      const from = x;
      while (code.get(x, y)) x++;
      if (x > from) path += `M${from + quiet} ${y + quiet}h${x - from}v1h${from - x}z`;
    }
  }
  return path;
}

function make(name: string, attributes: Record<string, string>): SVGElement {
  const element = document.createElementNS(namespace, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}
