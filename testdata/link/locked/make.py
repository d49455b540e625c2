#!/usr/bin/env python3
"""Writes the locked links of this folder: python3 testdata/link/locked/make.py

They are made without any code of Newel's: the key by hashlib, the cipher by the package
cryptography (OpenSSL; python3-cryptography), the letters' one form by unicodedata, and the
checksum as RFC 9580 6.1 prints it, with every bit turned over. web/lock.ts says what a
locked link consists of. core/link/locked_test.go and web/test/unit/lock.test.mjs read the
files. A file that is there already is held against what is made here and never rewritten.
"""

import base64
import hashlib
import sys
import unicodedata
from pathlib import Path

from cryptography.hazmat.primitives.ciphers.aead import AESGCM

OLD = "Ad6tvu8myQFKAQABAAAPQW1lcmljYS9DaGljYWdvAAAAAAAAmK5-LA"  # ../v1/starter.txt
SMALL = "DjxwC1ybJKUAekY"  # ../heads/arrival-known.txt

CASES = {
    "starter": dict(
        why="a link of version 1, locked with 600,000 rounds",
        hundred_thousands=6, salt="4f1d8a2c9e0b7365d1c2b3a49586770f", phrase="four warm loaves of bread", plain=OLD,
    ),
    "small": dict(
        why="a link of version 3, which is a head and its checksum and nothing else",
        hundred_thousands=6, salt="a07c51e8d2934b6f8812c0ffee5a1b3d", phrase="blue kettle, open gate", plain=SMALL,
    ),
    "other-letters": dict(
        why="typed with letters that Unicode NFKC makes others of (full width, a ligature, a letter with its accent apart), "
            "in a link that was made with 100,000 rounds",
        hundred_thousands=1, salt="00112233445566778899aabbccddeeff",
        phrase="\uff24\uff4f\uff4e\u2019\uff54 \ufb01nd Zoe\u0308", plain=OLD,
    ),
}


def crc24(data):
    """RFC 9580 6.1."""
    crc = 0xB704CE
    for byte in data:
        crc ^= byte << 16
        for _ in range(8):
            crc <<= 1
            if crc & 0x1000000:
                crc ^= 0x1864CFB
    return crc & 0xFFFFFF


def base64url(data):
    return base64.urlsafe_b64encode(data).decode().rstrip("=")


def from_base64url(text):
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))


def locked(hundred_thousands, salt, words, plain):
    front = bytes([0x80, hundred_thousands]) + salt
    key = hashlib.pbkdf2_hmac("sha256", words, salt, hundred_thousands * 100_000, 32)
    body = front + AESGCM(key).encrypt(salt[:12], from_base64url(plain), front)
    return base64url(body + (crc24(body) ^ 0xFFFFFF).to_bytes(3, "big"))


def text_of(case):
    words = unicodedata.normalize("NFKC", case["phrase"]).encode()
    fragment = locked(case["hundred_thousands"], bytes.fromhex(case["salt"]), words, case["plain"])
    return "".join(f"{line}\n" for line in [
        "source: testdata/link/locked/make.py",
        f"why: {case['why']}",
        "promise: families hold links like this one; it must open for ever, so this file is never changed",
        "",
        f"phrase: {case['phrase']}",
        f"words: {words.hex()}",
        f"plain: {case['plain']}",
        f"fragment: {fragment}",
    ])


def main():
    assert crc24(b"123456789") == 0x21CF02, "the check value of CRC-24/OpenPGP"
    wrong = []
    for name, case in CASES.items():
        file = Path(__file__).parent / f"{name}.txt"
        if not file.exists():
            file.write_text(text_of(case), encoding="utf-8")
        elif file.read_text(encoding="utf-8") != text_of(case):
            wrong.append(f"{file} is not what this program makes")
    sys.exit("\n".join(wrong) or None)


main()
