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

const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
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
  return {
    version, number: number(6, 32), surgery: new Date(Date.UTC(2000, 0, 1 + day)),
    arrival: arrival === noArrival ? undefined : arrival, stay,
  };
}

// atob would pass over bits at the end that belong to no byte, and over white space.
export function fromBase64url(text: string): Uint8Array | undefined {
  const bytes: number[] = [];
  let held = 0;
  let count = 0;
  for (const letter of text) {
    const value = alphabet.indexOf(letter);
    if (value < 0) return undefined;
    held = (held << 6) | value;
    count += 6;
    if (count < 8) continue;
    count -= 8;
    bytes.push(held >> count);
    held &= (1 << count) - 1;
  }
  return count < 6 && held === 0 ? Uint8Array.from(bytes) : undefined;
}

// Up to 14 bytes end with CRC-16/IBM-3740, longer ones with CRC-24/OpenPGP (RFC 9580 6.1),
// both with every bit turned over: core/link/checksum.go says why.
function sound(bytes: Uint8Array): boolean {
  const size = bytes.length;
  if (size < 11 || size === 15) return false;
  const width = size < 15 ? 16 : 24;
  const data = bytes.subarray(0, size - width / 8);
  const sum = width === 16 ? crc(data, 16, 0x11021, 0xffff) : crc(data, 24, 0x1864cfb, 0xb704ce);
  return (sum ^ ((1 << width) - 1)) === bytes.subarray(data.length).reduce((value, byte) => (value << 8) | byte, 0);
}

export function crc(bytes: Uint8Array, width: number, polynomial: number, start: number): number {
  let sum = start;
  for (const byte of bytes) {
    sum ^= byte << (width - 8);
    for (let bit = 0; bit < 8; bit++) {
      sum <<= 1;
      if (sum >> width) sum ^= polynomial;
    }
  }
  return sum;
}
