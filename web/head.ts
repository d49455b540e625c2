// The head of a link: the day of surgery and the arrival, read before the core has loaded.
// core/link/head.go reads the same nine bytes; both run the files in testdata/link/heads.
//
// A fragment is base64url (RFC 4648 5) of the head, the body, and a checksum over both.
// The head's bits, the highest first: 6 version, 32 plan number, 16 day, 11 arrival, 2
// stay, 1 joint, 2 operation, 2 others. Versions 3 to 31 have it. An older link, a locked
// one and a damaged one have no head that could be shown.

/** What a head says, as far as it is shown. */
export interface Head {
  readonly version: number;
  readonly number: number;
  /** The day of surgery, at midnight UTC. */
  readonly surgery: Date;
  /** Minutes after midnight on the hospital's clock; undefined while not known. */
  readonly arrival: number | undefined;
  /** 0 one night, 1 same day, 2 undecided. */
  readonly stay: number;
}

/** In characters; core/link looks at no longer fragment either. */
export const maxLength = 16384;
const lastDay = 36889; // 31 December 2100, in days from 1 January 2000
const noArrival = 2047;

/** Reads the head of a fragment; undefined where there is none to be trusted. */
export function readHead(fragment: string): Head | undefined {
  const bytes = fromBase64url(fragment);
  if (!bytes || !sound(bytes)) return undefined;
  const bits = [...bytes.subarray(0, 9)].map((byte) => byte.toString(2).padStart(8, "0")).join("");
  const number = (from: number, length: number): number => Number.parseInt(bits.slice(from, from + length), 2);
  const [version, day, arrival, stay, operation] = [number(0, 6), number(38, 16), number(54, 11), number(65, 2), number(68, 2)];
  if (version < 3 || version > 31 || day > lastDay || stay > 2 || operation > 2) return undefined;
  if (arrival >= 24 * 60 && arrival !== noArrival) return undefined;
  const surgery = new Date(Date.UTC(2000, 0, 1 + day));
  return { version, number: number(6, 32), surgery, arrival: arrival === noArrival ? undefined : arrival, stay };
}

/** Reads base64url without padding; undefined for anything but the one way to write it. */
export function fromBase64url(text: string): Uint8Array<ArrayBuffer> | undefined {
  if (text.length > maxLength || text.length % 4 === 1 || !/^[\w-]*$/.test(text)) return undefined;
  const bytes = Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
  // atob passes over bits at the end that belong to no byte.
  return toBase64url(bytes) === text ? bytes : undefined;
}

/** Writes base64url without padding, of at most maxLength characters. */
export function toBase64url(bytes: Uint8Array): string {
  return btoa(String.fromCharCode(...bytes)).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

/** Whether the checksum at the end of a link's bytes is theirs. */
export function sound(bytes: Uint8Array): boolean {
  const size = bytes.length < 15 ? 2 : 3;
  if (bytes.length < 11 || bytes.length === 15) return false;
  return checksum(bytes.subarray(0, -size), size).every((byte, i) => byte === bytes.at(i - size));
}

/**
 * The checksum in so many bytes: 2 for links of up to 14 bytes with it, CRC-16/IBM-3740;
 * else 3, CRC-24/OpenPGP (RFC 9580 6.1). Both have every bit turned over:
 * core/link/checksum.go says why.
 */
export function checksum(bytes: Uint8Array, size: 2 | 3): number[] {
  const [polynomial, start] = size === 2 ? [0x11021, 0xffff] as const : [0x1864cfb, 0xb704ce] as const;
  let sum: number = start;
  for (const byte of bytes) {
    sum ^= byte << (8 * size - 8);
    for (let bit = 0; bit < 8; bit++) sum = (sum << 1) ^ (sum >> (8 * size - 1) ? polynomial : 0);
  }
  return [~sum >> 16, ~sum >> 8, ~sum].slice(-size).map((part) => part & 0xff);
}
