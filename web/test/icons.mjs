// Draws the icons for home screens out of web/static/icon.svg, beside it: node web/test/icons.mjs.
// They are committed, since a build should need no browser; web/test/unit/icons.test.mjs holds them
// to their sizes, and the one that devices cut into shapes of their own to its safe zone.

import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { top } from "./compile.mjs";
import { endBrowsers, withPage } from "./engines.mjs";

const folder = join(top, "web/static");
const svg = await readFile(join(folder, "icon.svg"), "utf8");

/** Size in pixels, and how large the drawing stands on a full ground; without, it keeps its round corners. */
const icons = { "icon-192.png": [192], "icon-512.png": [512], "icon-maskable-512.png": [512, 0.74], "apple-touch-icon.png": [180, 0.86] };

/** Runs in the page. */
async function draw(text, size, scale) {
  const image = new Image();
  image.src = `data:image/svg+xml,${encodeURIComponent(text)}`;
  image.width = image.height = size;
  await image.decode();
  const canvas = Object.assign(document.createElement("canvas"), { width: size, height: size });
  const context = canvas.getContext("2d");
  if (scale !== null) {
    context.fillStyle = /<rect[^>]*fill="([^"]+)"/.exec(text)[1];
    context.fillRect(0, 0, size, size);
  }
  const side = size * (scale ?? 1);
  context.drawImage(image, (size - side) / 2, (size - side) / 2, side, side);
  return canvas.toDataURL("image/png").split(",")[1];
}

await withPage("chromium", {}, async (page) => {
  for (const [name, [size, scale]] of Object.entries(icons)) {
    await writeFile(join(folder, name), Buffer.from(await page.evaluate(draw, svg, size, scale ?? null), "base64"));
  }
});
await endBrowsers();
