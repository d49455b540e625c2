// Locking a link with a passphrase, and opening it again, by the browser's own WebCrypto.
//
// A locked link is base64url of:
//   1 byte    0x80: version 32 in the highest six bits, then two zero bits
//   1 byte    n: the key takes n × 100,000 rounds
//   16 bytes  salt, from the secure source, new for each link
//   the rest  AES-256-GCM (NIST SP 800-38D) of the plain link's bytes, with its 16-byte tag
//   3 bytes   the checksum that every link ends with (head.ts), which tells a damaged link
//             from a wrong passphrase
// The key is PBKDF2-HMAC-SHA-256 (RFC 8018) of the passphrase, without spaces at its ends,
// in Unicode's form NFKC, as UTF-8. The IV is the first 12 bytes of the salt: a new salt
// makes a new key, so no pair of key and IV comes twice. The first 18 bytes are additional
// data, so nobody can make a link that asks for fewer rounds.
//
// This is part of the first load: as a file of its own it would spare 0.2 kB there, and a
// locked link would then take one request more, which can fail.
//
// core/link says the same of the whole link and knows nothing of keys. A passphrase goes
// from its field through the core to here, and is kept nowhere.

import { checksum, fromBase64url, maxLength, sound, toBase64url } from "./head.js";

/** 600,000 rounds: OWASP's Password Storage Cheat Sheet for PBKDF2-HMAC-SHA-256. */
const rounds = 6;
const eachRound = 100_000;
/** More than any link of ours asks for; each takes a phone a tenth of a second and more. */
const mostRounds = 30;

const mark = 0x80;
const saltAt = 2;
const head = 18;
const tag = 16;
const sum = 3;

/** Bytes as WebCrypto takes them. */
export type Bytes = Uint8Array<ArrayBuffer>;

/** What came of opening a locked link: the plain fragment, or why not. */
export type Opened = { readonly plain: string } | "wrong" | "damaged";

/**
 * Locks a fragment. Rejects where the browser has no WebCrypto, as on a page without https,
 * and where the locked link would be longer than a link may be.
 */
export async function lock(fragment: string, phrase: string, salt: Bytes = crypto.getRandomValues(new Uint8Array(16))): Promise<string> {
  const plain = fromBase64url(fragment);
  if (!plain) throw new Error("lock: this is not a fragment");
  const front = Uint8Array.of(mark, rounds, ...salt);
  const body = Uint8Array.of(...front, ...(await seal(await keyOf(phrase, front), ivOf(front), front, plain)));
  const locked = toBase64url(Uint8Array.of(...body, ...checksum(body, sum)));
  if (locked.length > maxLength) throw new Error("lock: the link would be too long");
  return locked;
}

/** Opens a locked fragment. Rejects where the browser has no WebCrypto. */
export async function unlock(fragment: string, phrase: string): Promise<Opened> {
  const bytes = fromBase64url(fragment);
  const n = bytes?.[1] ?? 0;
  if (!bytes || bytes.length < head + tag + sum || bytes[0] !== mark || n === 0 || n > mostRounds || !sound(bytes)) return "damaged";
  const front = bytes.slice(0, head);
  const plain = await unseal(await keyOf(phrase, front), ivOf(front), front, bytes.slice(head, -sum));
  return plain ? { plain: toBase64url(plain) } : "wrong";
}

const ivOf = (front: Bytes): Bytes => front.slice(saltAt, saltAt + 12);

function keyOf(phrase: string, front: Bytes): Promise<Bytes> {
  const words = new TextEncoder().encode(phrase.trim().normalize("NFKC"));
  return stretch(words, front.slice(saltAt), (front[1] ?? 0) * eachRound, 32);
}

/** PBKDF2-HMAC-SHA-256: so many bytes from a passphrase. */
export async function stretch(words: Bytes, salt: Bytes, iterations: number, bytes: number): Promise<Bytes> {
  const secret = await crypto.subtle.importKey("raw", words, "PBKDF2", false, ["deriveBits"]);
  return new Uint8Array(await crypto.subtle.deriveBits({ name: "PBKDF2", hash: "SHA-256", salt, iterations }, secret, 8 * bytes));
}

/** AES-GCM: the cipher text with its tag behind it. */
export async function seal(key: Bytes, iv: Bytes, additionalData: Bytes, plain: Bytes): Promise<Bytes> {
  return new Uint8Array(await crypto.subtle.encrypt(gcm(iv, additionalData), await imported(key, "encrypt"), plain));
}

/** The plain text again; undefined where the tag does not fit. */
export async function unseal(key: Bytes, iv: Bytes, additionalData: Bytes, cipher: Bytes): Promise<Bytes | undefined> {
  const aes = await imported(key, "decrypt");
  try {
    return new Uint8Array(await crypto.subtle.decrypt(gcm(iv, additionalData), aes, cipher));
  } catch (fault) {
    // Web Cryptography API: OperationError is what a wrong tag gives. All else is a fault.
    if (fault instanceof DOMException && fault.name === "OperationError") return undefined;
    throw fault;
  }
}

function gcm(iv: Bytes, additionalData: Bytes): AesGcmParams {
  return { name: "AES-GCM", iv, additionalData, tagLength: 8 * tag };
}

function imported(key: Bytes, use: "encrypt" | "decrypt"): Promise<CryptoKey> {
  return crypto.subtle.importKey("raw", key, "AES-GCM", false, [use]);
}
