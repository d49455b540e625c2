// Three real browsers behind one small interface, so that a test is written once.
//
//   import { engines, withPage } from "../engines.mjs";
//   for (const engine of engines)
//     test(`${engine}: …`, () => withPage(engine, { width: 360, height: 740 }, async (page) => {
//       await page.goto(url);
//       assert.equal(await page.text("h1"), "…");
//     }));
//
// Options (all optional): width, height in CSS pixels; dark; javascript: false;
// language (BCP 47); timezone (IANA); now (ISO 8601 instant, holds the page's clock
// still); home (a folder for the browser's profile, to open it a second time).
//
// A page has
//   goto(url)              waits for the load event
//   evaluate(fn, ...args)  runs a function (or its text) in the page; args are JSON
//   until(fn, ...args)     waits until that function gives something true (30 s)
//   text(selector)         the text as shown
//   click(selector)        a real click in the middle of the element
//   fill(selector, value)  replaces what is in a field as a person would
//   press(key)             "Tab", "Enter", "ArrowDown", "a" …; "Shift+Tab"
//   type(text)             letter by letter into what has the focus
//   setSize(width, height), screenshot(file, fullPage), back(), forward(), reload()
//   pdf(file, format)      prints to a file, on "Letter" or "A4" (Chromium)
//   requests()             addresses asked for so far
//   messages()             what stands in the browser's console so far
//   clipboard()            what somebody gets who pastes now
//   setDark(on)            as the device would after sunset (Chromium)
//   setMedia(features)     what the device prefers, such as { "forced-colors": "active" } (Chromium)
//   offline(on)            cuts the page off from its server, or joins it again (Chromium)
//   takeErrors()           uncaught errors so far, and forgets them
//   can                    what this engine can do, see below
//   close()                fails if an uncaught error was not taken
//
// What an engine cannot do is said in page.can, so that a test states what it leaves
// out instead of passing by accident:
//   can.clock    now is honoured          (not WebKit: no script can run before the page's)
//   can.early    errors, messages and requests from the very start of a load are seen (not WebKit)
//   can.noScript javascript: false works  (Chromium, Firefox)
//   can.restart  home is honoured         (not WebKit: MiniBrowser keeps all in memory when it is driven)
//   can.language language is honoured     (not WebKit: it says "C", which is no tag at all;
//                in Firefox navigator.language follows, Intl's own default stays en-US)
// The time zone works everywhere.

import { openPuppeteer } from "./engines/puppeteer.mjs";
export { endBrowsers } from "./engines/puppeteer.mjs";
import { openWebKit } from "./engines/webkit.mjs";

/** Every engine; NEWEL_ENGINES="chromium,webkit" takes a part while working on one. */
export const engines = (process.env.NEWEL_ENGINES ?? "chromium,firefox,webkit").split(",");

const openers = { chromium: openPuppeteer, firefox: openPuppeteer, webkit: openWebKit };

/** Opens one page with a storage of its own. Close it, or use withPage. */
export async function open(engine, options = {}) {
  const opener = openers[engine];
  if (!opener) throw new Error(`no engine is called ${engine}: use ${Object.keys(openers)}`);
  const page = await opener(engine, { width: 360, height: 740, javascript: true, ...options });
  page.engine = engine;
  return page;
}

/**
 * One device on several visits. work gets visit(fn), which opens a page on what the visits before have
 * stored, runs fn(page) and closes it. Between them the browser ends; where it cannot (can.restart) the
 * page is left, and everything else that a visit does is the same. home is an empty folder for its profile.
 */
export async function withDevice(engine, options, home, work) {
  if (engine !== "webkit") return work((fn) => withPage(engine, { ...options, home }, fn));
  return withPage(engine, options, (page) => work(async (fn) => {
    await fn(page);
    await page.goto("about:blank");
  }));
}

/** Opens, runs, closes; a page never outlives its test. */
export async function withPage(engine, options, work) {
  const page = await open(engine, options);
  try {
    await work(page);
  } catch (fault) {
    // What the page itself reported is nearly always the reason.
    const errors = page.takeErrors();
    if (errors.length > 0) fault.message += `\nuncaught in the page: ${errors.join("\n")}`;
    await page.close();
    throw fault;
  }
  await page.close();
}
