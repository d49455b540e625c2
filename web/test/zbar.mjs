// Reads QR codes out of pictures with zbar (zbarimg, Debian package zbar-tools): a decoder
// that shares nothing with the library that draws them.

import { spawnSync } from "node:child_process";

/** zbarimg's exit status for a picture in which it found nothing (its manual page). */
const nothing = 4;

/** The texts of all codes in a PNG file. Throws where zbarimg cannot be run. */
export function readCodes(file) {
  const words = ["--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", file];
  const { error, status, stdout, stderr } = spawnSync("zbarimg", words, { encoding: "utf8" });
  if (error) throw new Error("zbarimg did not run (apt-get install zbar-tools)", { cause: error });
  if (status === nothing) return [];
  if (status !== 0) throw new Error(`zbarimg ended with ${status}: ${stderr}`);
  return stdout.trimEnd().split("\n");
}
