// Reads PDF files with poppler's programs (Debian package poppler-utils), which share nothing
// with the browser that makes them.

import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";

const run = (program, ...words) => execFileSync(program, words, { encoding: "utf8", maxBuffer: 64 << 20 });

/** How many pages, and how wide and high they are in points. */
export function about(file) {
  const text = run("pdfinfo", file);
  const [, width, height] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(text);
  return { pages: Number(/Pages:\s+(\d+)/.exec(text)[1]), width: Number(width), height: Number(height) };
}

/** The text of the whole file, or of one page, with one space between words. */
export function textOf(file, page) {
  const some = page ? ["-f", `${page}`, "-l", `${page}`] : [];
  return run("pdftotext", ...some, file, "-").replace(/\s+/g, " ").trim();
}

/** The text of each page in the order in which it was drawn, which is that of the page's HTML. */
export const drawnOn = (file) => run("pdftotext", "-raw", file, "-").split("\f").slice(0, -1);

/** Where each word stands: { page, text, left, top, right, bottom } in points. */
export function wordsOf(file) {
  const words = [];
  let page = 0;
  for (const line of run("pdftotext", "-bbox", file, "-").split("\n")) {
    if (line.includes("<page ")) page++;
    const found = /<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*)<\/word>/.exec(line);
    if (!found) continue;
    const [left, top, right, bottom] = found.slice(1, 5).map(Number);
    words.push({ page, text: found[5], left, top, right, bottom });
  }
  return words;
}

/**
 * Of each page: how many squares of four millimetres are filled, what share of it is dark, and
 * how many dots have a colour.
 */
export function inkOf(file, prefix) {
  run("pdftoppm", "-r", "50", file, prefix);
  return run("sh", "-c", `ls "${prefix}"-*.ppm`).trim().split("\n").map((name) => ink(readFileSync(name)));
}

// A PPM file: "P6", width, height, 255, then three bytes for each dot.
function ink(file) {
  const head = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(file.subarray(0, 40).toString("latin1"));
  const width = Number(head[1]), height = Number(head[2]), dots = file.subarray(head[0].length);
  const filled = new Map(); // square: its dark dots
  let dark = 0, coloured = 0;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const [r, g, b] = dots.subarray(3 * (y * width + x), 3 * (y * width + x) + 3);
      if (Math.max(r, g, b) - Math.min(r, g, b) > 24) coloured++;
      if (r + g + b >= 600) continue; // grey counts too: it is printed as dots
      dark++;
      const square = `${x >> 3} ${y >> 3}`;
      filled.set(square, (filled.get(square) ?? 0) + 1);
    }
  }
  return { filled: [...filled.values()].filter((n) => n === 64).length, dark: dark / (width * height), coloured };
}

/** Makes a picture of one page, for a camera. */
export const pictureOf = (file, page, prefix) => {
  run("pdftoppm", "-png", "-singlefile", "-r", "200", "-f", `${page}`, "-l", `${page}`, file, prefix);
  return `${prefix}.png`;
};
