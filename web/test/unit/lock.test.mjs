// Locking, against published values and against links that another program locked.

import assert from "node:assert/strict";
import { createDecipheriv, pbkdf2Sync } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import test from "node:test";
import { compileShell, top } from "../compile.mjs";

const { lock, seal, stretch, unlock, unseal } = await import(join(compileShell(), "lock.js"));

// The sources stand in the file.
const published = JSON.parse(readFileSync(join(top, "testdata/cipher/vectors.json"), "utf8"));
const bytes = (hex) => Uint8Array.from(Buffer.from(hex, "hex"));
const hex = (data) => Buffer.from(data).toString("hex");
const utf8 = (text) => new TextEncoder().encode(text);

for (const { password, salt, iterations, key } of published.pbkdf2_hmac_sha256.cases)
  test(`PBKDF2-HMAC-SHA-256 of ${password}, ${iterations} rounds`, async () => {
    assert.equal(hex(await stretch(utf8(password), utf8(salt), iterations, 64)), key);
  });

for (const c of published.aes_256_gcm.cases)
  test(`AES-256-GCM, test case ${c.case}`, async () => {
    const [key, iv, additional, plain] = [c.key, c.iv, c.additional, c.plain].map(bytes);
    const sealed = await seal(key, iv, additional, plain);
    assert.equal(hex(sealed), c.cipher + c.tag);
    assert.equal(hex(await unseal(key, iv, additional, sealed)), c.plain);
    sealed[sealed.length - 1] ^= 1;
    assert.equal(await unseal(key, iv, additional, sealed), undefined);
  });

/**
 * The links that Python locked, as files with "key: value" lines. core/link/locked_test.go
 * opens the same ones with Go's own cipher.
 */
const golden = readdirSync(join(top, "testdata/link/locked")).filter((file) => file.endsWith(".txt")).map((file) => {
  const lines = readFileSync(join(top, "testdata/link/locked", file), "utf8").trim().split("\n").filter((line) => line !== "");
  return { file, ...Object.fromEntries(lines.map((line) => [line.slice(0, line.indexOf(": ")), line.slice(line.indexOf(": ") + 2)])) };
});

test("the links that another program locked are there", () => assert.ok(golden.length >= 3));

for (const { file, phrase, words, plain, fragment } of golden) {
  test(`${file} names the bytes of its passphrase`, () => assert.equal(hex(utf8(phrase.normalize("NFKC"))), words));

  test(`${file} opens with its passphrase, also with spaces around it`, async () => {
    assert.deepEqual(await unlock(fragment, phrase), { plain });
    assert.deepEqual(await unlock(fragment, `  ${phrase}\n`), { plain });
  });

  test(`${file} does not open with another passphrase`, async () => {
    for (const other of ["", phrase.toUpperCase(), `${phrase}.`, phrase.replace(" ", "  ")])
      assert.equal(await unlock(fragment, other), "wrong", other);
  });
}

const starter = golden.find(({ file }) => file === "starter.txt");

test("every changed letter, every cut and every pair of swapped neighbours is called damage, not a wrong passphrase", async () => {
  const { fragment, phrase } = starter;
  const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  for (let i = 0; i < fragment.length; i++) {
    const other = letters[(letters.indexOf(fragment[i]) + 1 + (i % 62)) % 64];
    assert.equal(await unlock(fragment.slice(0, i) + other + fragment.slice(i + 1), phrase), "damaged", `letter ${i}`);
    assert.equal(await unlock(fragment.slice(0, i), phrase), "damaged", `cut at ${i}`);
    const swapped = fragment.slice(0, i) + (fragment[i + 1] ?? "") + fragment[i] + fragment.slice(i + 2);
    if (swapped !== fragment) assert.equal(await unlock(swapped, phrase), "damaged", `swapped at ${i}`);
  }
});

test("a byte that was changed on purpose, with a checksum that fits, does not open", async () => {
  const { fragment, phrase } = golden.find(({ file }) => file === "other-letters.txt");
  const size = Buffer.from(fragment, "base64url").length;
  // 1, the rounds, is changed by 1: many more of them would take minutes and prove the same.
  for (let i = 1; i < size - 3; i++)
    assert.equal(await unlock(changed(fragment, (bytes) => { bytes[i] ^= i === 1 ? 3 : 0x10; }), phrase), "wrong", `byte ${i}`);
});

/** The fragment with its bytes changed, and a checksum that fits. */
function changed(fragment, change, turned = 0xffffff) {
  const bytes = Buffer.from(fragment, "base64url");
  change(bytes);
  bytes.writeUIntBE(crc24(bytes.subarray(0, -3)) ^ turned, bytes.length - 3, 3);
  return bytes.toString("base64url");
}

// RFC 9580 6.1, written as it stands there.
function crc24(data) {
  let crc = 0xb704ce;
  for (const byte of data) {
    crc ^= byte << 16;
    for (let i = 0; i < 8; i++) {
      crc <<= 1;
      if (crc & 0x1000000) crc ^= 0x1864cfb;
    }
  }
  return crc & 0xffffff;
}

test("CRC-24 of the check string", () => assert.equal(crc24(Buffer.from("123456789")), 0x21cf02));

test("what is locked here is opened by Node's own cipher, and by unlock", async () => {
  const { plain } = starter;
  const locked = await lock(plain, " Zwölf rote Äpfel ");
  const data = Buffer.from(locked, "base64url");
  assert.equal(data[0], 0x80);
  assert.equal(data[1], 6); // OWASP Password Storage Cheat Sheet: 600,000 for PBKDF2-HMAC-SHA-256
  const salt = data.subarray(2, 18);
  const decipher = createDecipheriv("aes-256-gcm", pbkdf2Sync("Zwölf rote Äpfel".normalize("NFKC"), salt, 600_000, 32, "sha256"), salt.subarray(0, 12));
  decipher.setAAD(data.subarray(0, 18));
  decipher.setAuthTag(data.subarray(-19, -3));
  const opened = Buffer.concat([decipher.update(data.subarray(18, -19)), decipher.final()]);
  assert.equal(opened.toString("base64url"), plain);
  assert.deepEqual(await unlock(locked, "Zwölf rote Äpfel"), { plain });
});

test("each lock has a salt of its own", async () => {
  const [one, two] = [await lock(starter.plain, "x"), await lock(starter.plain, "x")];
  assert.notEqual(one.slice(3, 24), two.slice(3, 24));
});

test("no rounds at all, or another version, is damage", async () => {
  for (const [at, value] of [[1, 0], [0, 0x84], [0, 0x0c]])
    assert.equal(await unlock(changed(starter.fragment, (bytes) => { bytes[at] = value; }), starter.phrase), "damaged");
});

// As RFC 9580 has it, the checksum of bytes with their own checksum behind them is 0, so
// that a link that ends with a zero could lose it and still fit. Turned over, it cannot.
test("the checksum stands there with its bits turned over", async () => {
  assert.equal(changed(starter.fragment, () => {}), starter.fragment);
  assert.equal(await unlock(changed(starter.fragment, () => {}, 0), starter.phrase), "damaged");
});

test("what is no link, or would be too long a one, is not locked", async () => {
  await assert.rejects(lock("a b", "x"), /not a fragment/);
  await assert.rejects(lock("A".repeat(16384), "x"), /too long/); // 16384: MaxLength in core/link
  await assert.rejects(lock("A".repeat(16388), "x"), /not a fragment/);
});
