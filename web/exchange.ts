// The exchange is the one border between TypeScript and Go: bytes in, bytes out.
// core/app/exchange.go is the same thing on the other side and describes the format
// and all keys; both are checked by the vectors in testdata/exchange.

/** A key with its value. */
export type Pair = readonly [key: string, value: string];

/** The greatest length of a request in bytes; a response may be longer. */
export const requestLimit = 4 << 20;

/** A message is longer than its limit. */
export class TooLong extends Error {}

// ignoreBOM keeps a leading U+FEFF, which a TextDecoder would drop otherwise: then a
// value would come back changed. fatal refuses what is not UTF-8.
const decoder = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
const encoder = new TextEncoder();

/** Packs pairs in their order. Throws over limit bytes. */
export function encode(pairs: readonly Pair[], limit = Number.POSITIVE_INFINITY): Uint8Array<ArrayBuffer> {
  const strings = pairs.flat().map((text) => encoder.encode(text));
  const size = strings.reduce((sum, bytes) => sum + 4 + bytes.length, 0);
  checkLength(size, limit);
  const message = new Uint8Array(size);
  const view = new DataView(message.buffer);
  let at = 0;
  for (const bytes of strings) {
    view.setUint32(at, bytes.length, true);
    message.set(bytes, at + 4);
    at += 4 + bytes.length;
  }
  return message;
}

/** Unpacks a message. Throws, saying what and where, if it is not whole. */
export function decode(message: Uint8Array, limit = Number.POSITIVE_INFINITY): Pair[] {
  checkLength(message.length, limit);
  const pairs: Pair[] = [];
  let at = 0;
  while (at < message.length) {
    const key = readString(message, at);
    if (key.end === message.length) throw new Error(`exchange: the key ${JSON.stringify(key.text)} has no value`);
    const value = readString(message, key.end);
    pairs.push([key.text, value.text]);
    at = value.end;
  }
  return pairs;
}

function checkLength(length: number, limit: number): void {
  if (length > limit) throw new TooLong(`exchange: the message has ${length} bytes, more than ${limit / (1 << 20)} MiB`);
}

function readString(message: Uint8Array, at: number): { text: string; end: number } {
  if (message.length - at < 4) throw new Error(`exchange: the message ends inside a length, at byte ${at}`);
  const length = new DataView(message.buffer, message.byteOffset + at, 4).getUint32(0, true);
  const end = at + 4 + length;
  if (end > message.length) throw new Error(`exchange: a string goes past the end of the message, at byte ${at}`);
  try {
    return { text: decoder.decode(message.subarray(at + 4, end)), end };
  } catch {
    throw new Error(`exchange: a string is not UTF-8, at byte ${at}`);
  }
}
