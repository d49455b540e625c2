// WebKit's MiniBrowser needs a screen. One is made in memory for each run of tests, and not
// the machine's own taken: two that run side by side would share its focus and its clipboard.

import { spawn } from "node:child_process";

let display;

/** The name of a screen, such as ":99". Started once for the whole run. */
export function screen() {
  display ??= startXvfb();
  return display;
}

function startXvfb() {
  return new Promise((resolve, reject) => {
    // -displayfd lets Xvfb choose a free number, so that two test runs never meet.
    const xvfb = spawn("Xvfb", ["-displayfd", "3", "-screen", "0", "1600x2000x24", "-nolisten", "tcp"], {
      stdio: ["ignore", "ignore", "ignore", "pipe"],
    });
    xvfb.on("error", (fault) => reject(new Error(`Xvfb did not start (apt-get install xvfb): ${fault.message}`)));
    // Number and line end come in two writes. The pipe stays open: closing it after
    // the first would kill Xvfb by SIGPIPE.
    let number = "";
    xvfb.stdio[3].on("data", (part) => {
      number += part;
      if (!number.endsWith("\n")) return;
      xvfb.stdio[3].unref();
      resolve(`:${number.trim()}`);
    });
    // It must not keep the tests alive, nor outlive them.
    xvfb.unref();
    process.on("exit", () => xvfb.kill());
    for (const signal of ["SIGINT", "SIGTERM"]) process.once(signal, () => process.exit(1));
  });
}
