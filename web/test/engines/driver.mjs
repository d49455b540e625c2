// WebKitWebDriver, on a port of its own.

import { spawn } from "node:child_process";
import { createServer } from "node:net";
import { setTimeout as pause } from "node:timers/promises";

/** How many ports are tried: between being found free and being listened on, another program may take one. */
const ports = 5;

/** Starts a driver and waits until it answers, at most 10 s. Gives its port, and kill, which ends it. */
export async function startDriver(env) {
  for (let tries = 1; ; tries++) {
    const port = await freePort();
    const driver = spawn("WebKitWebDriver", [`--port=${port}`, "--host=127.0.0.1"], {
      stdio: process.env.NEWEL_TRACE ? "inherit" : "ignore", env,
    });
    const ended = new Promise((resolve) => {
      driver.once("error", (fault) => resolve(`did not start (apt-get install webkit2gtk-driver): ${fault.message}`));
      driver.once("exit", (code) => resolve(`ended with ${code} when it was to listen on port ${port}`));
    });
    const kill = () => driver.kill();
    process.on("exit", kill);
    driver.once("exit", () => process.off("exit", kill));
    const fault = await Promise.race([ended, listening(port)]);
    if (!fault) return { port, kill };
    kill();
    if (tries === ports || driver.exitCode === null) throw new Error(`WebKitWebDriver ${fault}`);
  }
}

/** A port of this machine that nobody listens on. */
function freePort() {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

/** Waits until a driver (WebDriver 2, 8.3 "Status") answers there; gives what is wrong if none does. */
async function listening(port) {
  const end = Date.now() + 10_000;
  while (Date.now() < end) {
    const answer = await fetch(`http://127.0.0.1:${port}/status`, { headers: { connection: "close" } }).catch(() => undefined);
    const status = await answer?.json().catch(() => undefined);
    if (typeof status?.value?.ready === "boolean") return undefined;
    await pause(50);
  }
  return `did not answer on port ${port} within 10 s`;
}
