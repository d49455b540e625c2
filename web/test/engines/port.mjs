// Where a driver listens.

import { createServer } from "node:net";
import { setTimeout as pause } from "node:timers/promises";

/** A port of this machine that nobody listens on. */
export function freePort() {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

/** Waits until WebKitWebDriver answers there, at most 10 s. */
export async function listening(port) {
  for (let turn = 0; turn < 200; turn++) {
    const answer = await fetch(`http://127.0.0.1:${port}/status`, { headers: { connection: "close" } }).catch(() => undefined);
    if (answer?.ok) return;
    await pause(50);
  }
  throw new Error("WebKitWebDriver did not answer (apt-get install webkit2gtk-driver)");
}
