// WebKit as Debian ships it: WebKitWebDriver drives MiniBrowser, selenium-webdriver
// drives that. It is the nearest to some phones' browser that runs on Linux.

import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { Agent } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after } from "node:test";
import { setTimeout as pause } from "node:timers/promises";
import { Builder, By, Key } from "selenium-webdriver";
import { call, clipboard, noErrorsLeft, setDirectly, toTheMiddle, until } from "./common.mjs";
import { screen } from "./display.mjs";
import { startDriver } from "./driver.mjs";

const miniBrowser =
  process.env.NEWEL_MINIBROWSER ?? "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser";

// To start one takes longer than most tests, so the tests of a file share browsers, one after
// the other; each finds it as it was at the start: no storage, no page, no other window. What
// stays is the list of places gone to, which ends at 100; so a browser serves some tests and
// goes. Two pages that are open at once are two browsers.
const idle = new Map();
const turns = 10;

after(async () => {
  for (const browser of [...idle.values()].flat()) await browser.end();
  idle.clear();
});

/** Opens WebKit: a page with a storage of its own. */
export async function openWebKit(engine, options) {
  // With --automation MiniBrowser makes its data manager an ephemeral one, whatever folders it is given.
  if (options.home) throw new Error("webkit: a profile cannot be opened a second time: use withDevice (web/test/engines.mjs)");
  if (!options.javascript) throw new Error("webkit: JavaScript cannot be turned off from outside");
  const key = JSON.stringify([options.timezone, options.dark]);
  const browser = idle.get(key)?.pop() ?? (await start(options));
  try {
    const page = new Page(browser.driver, (errors) => finish(engine, options, key, browser, page, errors));
    await page.setSize(options.width, options.height);
    return page;
  } catch (fault) {
    await browser.end();
    throw fault;
  }
}

/** Hands the browser on as it was, or ends it. */
async function finish(engine, options, key, browser, page, errors) {
  browser.turns += 1;
  const again = browser.turns < turns && (await page.forget().then(() => true, () => false));
  if (again) idle.set(key, [...(idle.get(key) ?? []), browser]);
  else await browser.end();
  noErrorsLeft(engine, errors);
}

/** How long a command may take, in ms: a driver that never answers must fail one test, and not hold up all. */
const patience = 180_000;

class Impatient extends Agent {
  createConnection(options, made) {
    const socket = super.createConnection(options, made);
    socket.setTimeout(patience, () => socket.destroy(new Error(`WebKitWebDriver has not answered within ${patience / 1000} s`)));
    return socket;
  }
}

/** Starts a browser: one driver process each, because it serves one session at a time. */
async function start(options) {
  const home = await mkdtemp(join(tmpdir(), "newel-webkit-"));
  await narrowWindows(join(home, "config", "gtk-3.0"));
  const { port, kill } = await startDriver(await environment(options, home));
  const browser = {
    driver: undefined,
    turns: 0,
    async end() {
      await browser.driver?.quit().catch(() => undefined);
      kill();
      await rm(home, { recursive: true, force: true, maxRetries: 5 });
    },
  };
  try {
    browser.driver = await new Builder()
      .usingServer(`http://127.0.0.1:${port}`)
      // One connection for each command: WebKitWebDriver at times leaves the second
      // request on a kept connection unanswered.
      .usingHttpAgent(new Impatient({ keepAlive: false }))
      .withCapabilities({
        browserName: "MiniBrowser",
        "webkitgtk:browserOptions": { binary: miniBrowser, args: ["--automation"] },
      })
      .build();
    return browser;
  } catch (fault) {
    await browser.end();
    throw fault;
  }
}

// MiniBrowser's tool bar keeps the window at least 447 pixels wide, wider than a phone.
// GTK reads this file from the profile; without its padding the bar fits.
async function narrowWindows(folder) {
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, "gtk.css"), "* { min-width: 0; padding: 0; margin: 0; font-size: 4px; -gtk-icon-transform: scale(0.3); }");
}

async function environment(options, home) {
  return {
    ...process.env,
    DISPLAY: await screen(),
    // The browser's own sandbox needs user name spaces, which containers refuse.
    WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: "1",
    // No graphics card. The other switches often named beside this one
    // (…_DMABUF_RENDERER, …_COMPOSITING_MODE) make every screenshot wait for ever.
    LIBGL_ALWAYS_SOFTWARE: "1",
    // No message bus runs in a container, and starting one for each browser is slow.
    NO_AT_BRIDGE: "1",
    GSETTINGS_BACKEND: "memory",
    GIO_USE_VFS: "local",
    GTK_THEME: options.dark ? "Adwaita:dark" : "Adwaita",
    HOME: home,
    XDG_DATA_HOME: join(home, "data"),
    XDG_CACHE_HOME: join(home, "cache"),
    XDG_CONFIG_HOME: join(home, "config"),
    ...(options.timezone ? { TZ: options.timezone } : {}),
    // No language: WebKit takes it from an installed system locale, and hangs at start
    // when LANG names one that is not installed (2.50.6).
  };
}

class Page {
  can = { clock: false, early: false, noScript: false, restart: false, language: false };
  #driver;
  #finish;
  #errors = [];
  #messages = [];
  #origins = new Set();

  constructor(driver, finish) {
    this.#driver = driver;
    this.#finish = finish;
  }

  async goto(url) {
    await this.#driver.get(url);
    this.#origins.add(new URL(url).origin);
    await this.#listen();
  }

  /** Leaves nothing behind for the next page in this browser. */
  async forget() {
    for (const origin of this.#origins) {
      if (origin === "null") continue;
      // An address of that place where no script of ours runs and stores something anew.
      await this.#driver.get(`${origin}/nothing-here`);
      await this.#driver.executeScript(`
        localStorage.clear(); sessionStorage.clear();
        return (async () => {
          for (const worker of await navigator.serviceWorker.getRegistrations()) await worker.unregister();
          for (const name of await caches.keys()) await caches.delete(name);
        })();`);
      const left = await this.#driver.executeScript("return [localStorage.length, sessionStorage.length, document.cookie.length]");
      if (left.some((n) => n > 0)) throw new Error(`webkit: ${origin} kept something`);
    }
    await this.#driver.get("about:blank");
  }

  async reload() {
    await this.#driver.navigate().refresh();
    await this.#listen();
  }

  // Errors and messages from here on; those during the load happened before anybody could listen.
  #listen() {
    return this.evaluate(`() => {
      if (globalThis.newelErrors) return;
      globalThis.newelErrors = [];
      globalThis.newelMessages = [];
      for (const kind of ["debug", "error", "info", "log", "warn"]) {
        const says = console[kind];
        console[kind] = (...words) => { newelMessages.push(words.map(String).join(" ")); says.apply(console, words); };
      }
      addEventListener("securitypolicyviolation", (event) => newelMessages.push(event.effectiveDirective + " forbids " + event.blockedURI));
      addEventListener("error", (event) => newelErrors.push(event.message + " " + (event.error?.stack ?? "")));
      addEventListener("unhandledrejection", (event) => newelErrors.push(event.reason + " " + (event.reason?.stack ?? "")));
    }`);
  }

  async evaluate(fn, ...args) {
    // Every answer brings the errors along: after the page has closed they are gone.
    const { value, errors, messages } = await this.#driver.executeScript(`
      return Promise.resolve(${call(fn, args)}).then((value) => (
        { value, errors: (globalThis.newelErrors ?? []).splice(0), messages: (globalThis.newelMessages ?? []).splice(0) }));`);
    this.#errors.push(...errors);
    this.#messages.push(...messages);
    return value ?? undefined;
  }

  until(fn, ...args) { return until(this, fn, args); }
  text(selector) { return this.evaluate("(s) => document.querySelector(s).innerText", selector); }
  async click(selector) {
    await this.evaluate(toTheMiddle, selector);
    await this.#driver.findElement(By.css(selector)).click();
  }
  back() { return this.evaluate("() => { history.back(); }"); }
  forward() { return this.evaluate("() => { history.forward(); }"); }
  clipboard() { return clipboard(this); }
  async messages() {
    await this.evaluate("() => undefined"); // brings those that are left
    return [...this.#messages];
  }

  takeErrors() { return this.#errors.splice(0); }

  async requests() {
    return this.evaluate(`() => [location.href.split("#")[0],
      ...performance.getEntriesByType("resource").map((entry) => entry.name)]`);
  }

  // The window has a frame and a tool bar of unknown size: set it, look, correct.
  async setSize(width, height) {
    const window = this.#driver.manage().window();
    let outer = { width, height };
    for (let turn = 0; turn < 5; turn++) {
      const inner = await this.evaluate("() => ({ width: innerWidth, height: innerHeight })");
      if (inner.width === width && inner.height === height) return;
      if (turn > 0) outer = { width: outer.width + width - inner.width, height: outer.height + height - inner.height };
      await window.setRect({ x: 0, y: 0, ...outer });
      await pause(100);
    }
  }

  async screenshot(file) {
    await writeFile(file, await this.#driver.takeScreenshot(), "base64");
  }

  async fill(selector, value) {
    if (await this.evaluate(setDirectly, selector, value)) return;
    await (value === "" ? this.press("Backspace") : this.type(value));
  }

  async type(text) { await this.#driver.actions().sendKeys(text).perform(); }

  async press(key) {
    const names = { ArrowDown: "ARROW_DOWN", ArrowUp: "ARROW_UP", ArrowLeft: "ARROW_LEFT", ArrowRight: "ARROW_RIGHT", Backspace: "BACK_SPACE" };
    const parts = key.split("+").map((name) => Key[names[name] ?? name.toUpperCase()] ?? (name === "Space" ? " " : name));
    const last = parts.pop();
    const actions = this.#driver.actions();
    for (const held of parts) actions.keyDown(held);
    actions.keyDown(last).keyUp(last);
    for (const held of parts) actions.keyUp(held);
    await actions.perform();
  }

  async close() {
    await this.evaluate("() => undefined").catch(() => undefined);
    await this.#finish(this.#errors);
  }
}
