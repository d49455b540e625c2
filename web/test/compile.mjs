// Node 20 runs no TypeScript, so the tests take the shell as tsc emits it: one ES module
// for each file, unbundled, in a folder under .cache.

import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** The repository's top folder. */
export const top = fileURLToPath(new URL("../..", import.meta.url));

/** Compiles web/*.ts, or the worker's own, with all checks and gives the folder; removed when the process ends. */
export function compileShell(of = "web") {
  const cache = join(top, ".cache");
  mkdirSync(cache, { recursive: true });
  // A folder each: node --test runs the files side by side.
  const folder = mkdtempSync(join(cache, "shell-"));
  process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
  try {
    execFileSync(process.execPath, [join(top, "node_modules/typescript/bin/tsc"),
      "-p", join(top, of, "tsconfig.json"), "--noEmit", "false", "--outDir", folder]);
  } catch (fault) {
    throw new Error(`tsc found mistakes in ${of}/*.ts:\n${fault.stdout}`);
  }
  return folder;
}
