// Chromium over its own protocol, Firefox over WebDriver BiDi, both by puppeteer-core.

import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after } from "node:test";
import puppeteer from "puppeteer-core";
import { call, clipboard, noErrorsLeft, pinClock, setDirectly, toTheMiddle, until } from "./common.mjs";

// No sandbox: tests run as root in containers, where Chromium's sandbox cannot start.
// The rest keeps the browser from talking to anything but the test's own server.
const chromiumFlags = [
  "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync",
  "--disable-features=InitialWebUI", // the window's own buttons, as a page that takes as long as ours to start
];

/** Opens Chromium or Firefox: a page with a storage of its own. */
export async function openPuppeteer(engine, options) {
  const { place, leave } = await room(engine, options);
  const tab = options.home ? (await place.pages())[0] : await place.newPage();
  const errors = [];
  const requests = [];
  const messages = [];
  // Firefox and Chromium draw parts of their own controls from data: addresses; no
  // byte of those leaves the machine.
  const keep = (url) => { if (!url.startsWith("data:")) requests.push(url); };
  tab.on("pageerror", (fault) => errors.push(String(fault?.stack ?? fault)));
  tab.on("request", (request) => keep(request.url()));
  tab.on("console", (message) => messages.push(message.text()));
  // The question before a page with patients is left, which the other engines answer by themselves.
  tab.on("dialog", (dialog) => { if (dialog.type() === "beforeunload") void dialog.accept(); });
  const finish = async () => {
    await leave();
    noErrorsLeft(engine, errors);
  };
  try {
    await prepare(tab, engine, options);
  } catch (fault) {
    await finish(); // a browser that is left behind keeps the tests from ending
    throw fault;
  }
  return new Page(tab, { errors, requests, messages }, finish);
}

// The browsers of this test file, by what they were started with. To start one takes longer
// than most tests, so pages share them; each is a context of its own, which shares nothing
// with the others that a page can see.
const started = new Map();

/** Ends them. Tests need not ask for it. */
export async function endBrowsers() {
  for (const starting of started.values()) await (await starting).end();
  started.clear();
}

after(endBrowsers);

/** Where a page is opened, and how to leave that. */
async function room(engine, options) {
  if (options.home) { // the profile is opened a second time, so its browser has to end
    const { browser, end } = await start(engine, options, options.home);
    return { place: browser, leave: end };
  }
  const key = JSON.stringify([engine, options.language, options.javascript, engine === "firefox" && [options.timezone, options.dark]]);
  if (!started.has(key)) started.set(key, start(engine, options));
  const context = await (await started.get(key)).browser.createBrowserContext();
  return { place: context, leave: () => context.close() };
}

async function start(engine, options, home) {
  const folder = home ?? (await mkdtemp(join(tmpdir(), `newel-${engine}-`)));
  // puppeteer 24.43 copies this file aside at the second start of a Firefox profile, and fails where there is none.
  if (engine === "firefox") await writeFile(join(folder, "user.js"), "", { flag: "a" });
  const browser = await launch(engine, options, folder);
  const end = async () => {
    await browser.close();
    if (!home) await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  };
  return { browser, end };
}

function launch(engine, options, home) {
  if (engine === "chromium") {
    const language = options.language ? [`--lang=${options.language}`, `--accept-lang=${options.language}`] : [];
    return puppeteer.launch({
      executablePath: process.env.NEWEL_CHROMIUM ?? "/usr/bin/chromium",
      userDataDir: home,
      args: [...chromiumFlags, ...language],
    });
  }
  return puppeteer.launch({
    browser: "firefox",
    executablePath: process.env.NEWEL_FIREFOX ?? "/usr/bin/firefox-esr",
    userDataDir: home,
    // Firefox takes the zone from the environment at start.
    env: { ...process.env, ...(options.timezone ? { TZ: options.timezone } : {}) },
    extraPrefsFirefox: {
      "ui.systemUsesDarkTheme": options.dark ? 1 : 0,
      "layout.css.prefers-color-scheme.content-override": options.dark ? 0 : 1,
      ...(options.language
        ? { "intl.accept_languages": options.language, "intl.locale.requested": options.language }
        : {}),
      "javascript.enabled": options.javascript,
    },
  });
}

async function prepare(tab, engine, options) {
  await setSize(tab, options.width, options.height);
  if (options.now) await tab.evaluateOnNewDocument(pinClock(options.now));
  if (engine !== "chromium") return;
  // Its window is in front, as a person's is. Else it gets the focus with the first click
  // after a reload, and scrolls back to a focused date field before the click arrives.
  await tab.emulateFocusedPage(true);
  if (!options.javascript) await tab.setJavaScriptEnabled(false);
  await setDark(tab, options.dark);
  if (options.timezone) await tab.emulateTimezone(options.timezone);
  if (options.language) {
    const session = await tab.createCDPSession();
    await session.send("Emulation.setLocaleOverride", { locale: options.language.replace("-", "_") });
  }
}

function setDark(tab, dark) {
  return tab.emulateMediaFeatures([{ name: "prefers-color-scheme", value: dark ? "dark" : "light" }]);
}

// puppeteer 24.43 sets the way a screen is held together with its size, which Firefox 140,
// Debian's ESR, does not know. The size itself is set all the same, and waited for here.
async function setSize(tab, width, height) {
  try {
    await tab.setViewport({ width, height });
  } catch (fault) {
    if (!/unknown command emulation\.setScreenOrientationOverride/.test(fault.message)) throw fault;
    // Asked again and again from here: where a page's scripts are off, nothing waits inside it.
    for (let tries = 0; tries < 100; tries++) {
      if (await tab.evaluate(`innerWidth === ${width} && innerHeight === ${height}`)) return;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    throw new Error(`Firefox did not become ${width} by ${height} in size`, { cause: fault });
  }
}

function pressUnfocused() {
  const { activeElement } = document;
  if (!navigator.userAgent.includes("Firefox") || document.hasFocus() || !(activeElement instanceof HTMLButtonElement)) return false;
  activeElement.click();
  return true;
}

class Page {
  can = { clock: true, early: true, noScript: true, restart: true, language: true };
  #tab;
  #errors;
  #requests;
  #messages;
  #finish;
  #session;

  constructor(tab, { errors, requests, messages }, finish) {
    this.#tab = tab;
    this.#errors = errors;
    this.#requests = requests;
    this.#messages = messages;
    this.#finish = finish;
  }

  goto(url) { return this.#tab.goto(url, { waitUntil: "load" }); }
  evaluate(fn, ...args) { return this.#tab.evaluate(call(fn, args)); }
  until(fn, ...args) { return until(this, fn, args); }
  text(selector) { return this.#tab.$eval(selector, (element) => element.innerText); }
  offline(on) { return this.#tab.setOfflineMode(on); }
  clipboard() { return clipboard(this); }
  setSize(width, height) { return setSize(this.#tab, width, height); }
  setDark(dark) { return setDark(this.#tab, dark); }
  // By the browser's own protocol: puppeteer's emulateMediaFeatures knows no forced colours.
  async setMedia(features) {
    this.#session ??= await this.#tab.createCDPSession();
    await this.#session.send("Emulation.setEmulatedMedia", { features: Object.entries(features).map(([name, value]) => ({ name, value })) });
  }
  /** Prints to a file, on "Letter" or "A4", fills and all (Chromium). */
  pdf(file, format) { return this.#tab.pdf({ path: file, format, printBackground: true }); }
  screenshot(file, fullPage = true) { return this.#tab.screenshot({ path: file, fullPage }); }
  type(text) { return this.#tab.keyboard.type(text); }
  requests() { return [...this.#requests]; }
  messages() { return [...this.#messages]; }
  takeErrors() { return this.#errors.splice(0); }
  close() { return this.#finish(); }
  reload() { return this.#tab.reload({ waitUntil: "load" }); }

  // By the page itself: puppeteer's goBack waits for a load that a step inside one
  // document never makes.
  back() { return this.evaluate("() => { history.back(); }"); }
  forward() { return this.evaluate("() => { history.forward(); }"); }

  async click(selector) {
    await this.evaluate(toTheMiddle, selector);
    await this.#tab.click(selector);
  }

  async fill(selector, value) {
    if (await this.evaluate(setDirectly, selector, value)) return;
    await (value === "" ? this.press("Backspace") : this.type(value));
  }

  async press(key) {
    // Of several windows one has the keys: in the others Firefox, which shares them between tests, lets
    // Enter press no button that has the focus. There it is pressed by the page.
    if (key === "Enter" && await this.evaluate(pressUnfocused)) return;
    const parts = key.split("+");
    const last = parts.pop();
    for (const held of parts) await this.#tab.keyboard.down(held);
    // Without a window nobody but this turns the keys into the command (Chromium).
    await this.#tab.keyboard.press(last, key === "Control+v" ? { commands: ["Paste"] } : {});
    for (const held of parts) await this.#tab.keyboard.up(held);
  }
}
