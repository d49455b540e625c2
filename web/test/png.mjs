// Whether a picture shows anything, without a library: a PNG's lines are inflated and looked at.

import { inflateSync } from "node:zlib";

/**
 * Tells whether a PNG (W3C, third edition) is of one colour but for less than `least` of its lines. Each
 * line begins with its filter. Of a picture of one colour every filter but "none" leaves zeros behind the
 * first pixel of the first line, and "none" leaves the same pixel again and again.
 */
export function looksBlank(png, least = 0.02) {
  const { width, height, channels, data } = read(png);
  const line = 1 + width * channels;
  let drawn = 0;
  for (let y = 0; y < height; y++) {
    const bytes = data.subarray(y * line + 1, (y + 1) * line);
    const plain = data[y * line] === 0;
    for (let x = channels; x < bytes.length; x++) {
      if (plain ? bytes[x] !== bytes[x - channels] : bytes[x] !== 0) { drawn++; break; }
    }
  }
  return drawn < height * least;
}

function read(png) {
  const parts = [];
  let width, height, channels;
  for (let at = 8; at < png.length;) {
    const length = png.readUInt32BE(at);
    const kind = png.toString("latin1", at + 4, at + 8);
    const body = png.subarray(at + 8, at + 8 + length);
    if (kind === "IHDR") {
      [width, height] = [body.readUInt32BE(0), body.readUInt32BE(4)];
      if (body[8] !== 8 || body[12] !== 0) throw new Error("only PNGs of 8 bits that are not interlaced are read");
      channels = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 }[body[9]];
    }
    if (kind === "IDAT") parts.push(body);
    at += 12 + length;
  }
  return { width, height, channels, data: inflateSync(Buffer.concat(parts)) };
}

/** A PNG's pixels: one line after the other, `channels` bytes each, with its filters undone (PNG, third edition, 9). */
export function pixels(png) {
  const { width, height, channels, data } = read(png);
  const line = width * channels;
  const out = Buffer.alloc(line * height);
  for (let y = 0; y < height; y++) {
    const filter = data[y * (line + 1)];
    for (let x = 0; x < line; x++) {
      const left = x < channels ? 0 : out[y * line + x - channels];
      const up = y === 0 ? 0 : out[(y - 1) * line + x];
      const corner = x < channels || y === 0 ? 0 : out[(y - 1) * line + x - channels];
      const guess = [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter];
      out[y * line + x] = data[y * (line + 1) + 1 + x] + guess;
    }
  }
  return { width, height, channels, data: out };
}

function paeth(left, up, corner) {
  const p = left + up - corner;
  const [a, b, c] = [left, up, corner].map((near) => Math.abs(p - near));
  return a <= b && a <= c ? left : b <= c ? up : corner;
}
