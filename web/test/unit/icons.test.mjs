// The icons for home screens, by their pixels. Sizes: those that the manifest names (build/frame/manifest.go),
// and 180 for the one that has no manifest (the size that phones with three pixels to a CSS pixel ask for; from
// memory). The safe zone of a maskable icon is a circle around its middle with a radius of 40 % of its width
// (W3C Web Application Manifest, "icon masks and safe zone").

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import { pixels } from "../png.mjs";

const icon = (name) => pixels(readFileSync(new URL(`../../static/${name}`, import.meta.url)));
const at = ({ width, data, channels }, x, y) => [...data.subarray((y * width + x) * channels, (y * width + x + 1) * channels)];
const ground = [0xfa, 0xf7, 0xf1]; // --paper by day, as in icon.svg

test("each is as large as it says", () => {
  for (const [name, size] of [["icon-192.png", 192], ["icon-512.png", 512], ["icon-maskable-512.png", 512], ["apple-touch-icon.png", 180]]) {
    const { width, height } = icon(name);
    assert.deepEqual([width, height], [size, size], name);
  }
});

test("what is drawn on the maskable one lies in its safe zone, and its ground goes to every edge", () => {
  const image = icon("icon-maskable-512.png");
  const middle = (image.width - 1) / 2;
  let [far, drawn] = [0, 0];
  for (let y = 0; y < image.height; y++) {
    for (let x = 0; x < image.width; x++) {
      const colour = at(image, x, y);
      assert.ok(image.channels === 3 || colour[3] === 255, `the pixel ${x}, ${y} is clear`);
      if (colour.slice(0, 3).every((c, i) => Math.abs(c - ground[i]) <= 2)) continue;
      drawn++;
      far = Math.max(far, Math.hypot(x - middle, y - middle));
    }
  }
  assert.ok(drawn > image.width ** 2 * 0.05, "something is drawn");
  assert.ok(far <= image.width * 0.4, `a pixel lies ${far.toFixed(0)} from the middle; the zone ends at ${image.width * 0.4}`);
});

test("the one without a manifest has no clear corner, which phones would fill with black", () => {
  const image = icon("apple-touch-icon.png");
  for (const [x, y] of [[0, 0], [179, 0], [0, 179], [179, 179]]) assert.deepEqual(at(image, x, y).slice(0, 3), ground);
});
