// The catalogue (build/catalogue): every screen in every named state, held to what a reader needs of
// it. Chromium looks at every state in English and at one of each kind of screen in the other
// languages; the other engines at whether one of each kind holds together. A picture of each state goes to .cache/pictures.
//
// The build serves the catalogue beside a fresh bundle and names that in NEWEL_SITE. While working on
// something, NEWEL_STATES takes a part of the states (a text that their names have to match), and
// NEWEL_REPORT names a file that gets everything that was found.

import assert from "node:assert/strict";
import { appendFile, mkdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { before, test } from "node:test";
import { top } from "../compile.mjs";
import { engines, withPage } from "../engines.mjs";
import { axeFindings, covering, faint, lostPictures, moving, plated, skeleton, smallTargets, spaceText } from "../gates.mjs";
import { faults } from "../layout.mjs";
import { looksBlank } from "../png.mjs";

const site = process.env.NEWEL_SITE;
assert.ok(site, "NEWEL_SITE is not set: run this through `go run ./build test --only browser`");
const catalogue = `${site}catalogue/`;
const pictures = join(top, ".cache", "pictures");
const languages = ["en", "es", "qps"];

/** Times and warnings: what is read in a hurry stands 7:1 from its ground (WCAG 2.2, 1.4.6). */
const urgent = "time, .time, .span, .sign, .alarm, .urgent, .call";

// A plan's whole page has ten times the elements of the others, and there are sixty states of it,
// with the same parts: all gates look at the first of them, and at the odd names; the others are
// looked at in English only, for whether they hold together, and for large targets.
const large = 100_000; // bytes
const largeFully = 6;
const odd = /^(very-long|hostile|arabic|hebrew)$/;

/** The states; `whole`: those that all gates look at; `each`: one of every kind of screen. */
let states, whole, each, axe;
before(async () => {
  const listed = await (await fetch(`${catalogue}states.json`)).json();
  const wanted = listed.filter(({ Name }) => new RegExp(process.env.NEWEL_STATES ?? "").test(Name));
  assert.ok(wanted.length > 0, "there are no such states");
  let plans = 0;
  const kinds = new Set();
  states = wanted.map((s) => s.Name);
  whole = new Set(wanted.filter((s) => s.Size < large || odd.test(s.Name) || ++plans <= largeFully).map((s) => s.Name));
  each = wanted.filter((s) => {
    const kind = `${s.Group} ${s.Path.replace(/\d+/g, "N")}`;
    const first = !kinds.has(kind);
    kinds.add(kind);
    return odd.test(s.Name) || (first && whole.has(s.Name));
  }).map((s) => s.Name);
  axe = await readFile(join(top, "node_modules/axe-core/axe.min.js"), "utf8");
  await mkdir(pictures, { recursive: true });
});

/** Goes through documents in two pages, as the machine has two cores, and gives what was found, by document. */
async function through(engine, options, documents, look) {
  const found = {};
  const ahead = [...documents];
  const lane = () => withPage(engine, options, async (page) => {
    for (let name = ahead.shift(); name; name = ahead.shift()) {
      await page.goto(`${catalogue}${name}.html`);
      const list = await look(page, name);
      if (list.length > 0) found[name] = [...new Set(list)].slice(0, 12);
      if (process.env.NEWEL_REPORT) await appendFile(process.env.NEWEL_REPORT, [name, ...list].join("\n  ") + "\n");
    }
  });
  await Promise.all([lane(), lane()]);
  return found;
}

/** The document as it is shown at a size, folds open. */
const openFolds = () => { for (const d of document.querySelectorAll("details")) d.open = true; };

const setType = (size) => { if (size) document.documentElement.dataset.type = size; else delete document.documentElement.dataset.type; };

const named = (what, list) => list.map((sentence) => `${what}: ${sentence}`);

/** The skeletons of documents that were looked at, see skeleton. */
const known = new Set();

/** All that is asked of a document in Chromium. */
async function everything(page, name) {
  const found = [];
  const fully = whole.has(name.split(".")[0]);
  await page.setMedia({ "prefers-color-scheme": "light" });
  await page.setSize(360, 740);
  if (name.endsWith(".en")) {
    const file = join(pictures, `${name}.png`);
    await page.screenshot(file, false);
    if (looksBlank(await readFile(file))) found.push("its picture is blank");
  }
  await page.evaluate(openFolds);
  found.push(...await sizes(page, name, fully));
  if (!fully) return found;
  const bones = await page.evaluate(skeleton);
  if (known.has(bones)) return found;
  known.add(bones);
  // The pseudo-language's tag is one for private use (BCP 47, 2.2.1), which axe takes for a mistake.
  const off = name.endsWith(".qps") ? ["html-lang-valid", "valid-lang"] : [];
  return [...found, ...await colours(page), ...await rules(page, off)];
}

/**
 * Whether it holds together, at each width and size of type. Its words count, so in every language: in
 * English at all of them, in the pseudo-language, which is the longest, at those that are tightest, in
 * the others, which lie between the two, at the narrowest and the largest.
 */
async function sizes(page, name, fully) {
  const found = [];
  const english = name.endsWith(".en");
  const at = async (what, width, height, ...looks) => {
    await page.setSize(width, height);
    for (const [look, ...args] of looks) found.push(...named(what, await page.evaluate(look, ...args)));
  };
  if (english) await at("360 px", 360, 740, [faults], [smallTargets, 48]);
  if (!fully) return found;
  if (english || name.endsWith(".qps")) {
    await page.evaluate(spaceText, true);
    await at("text spaced", 360, 740, [faults]);
    await page.evaluate(spaceText, false);
    await at("1280 px", 1280, 800, [faults]);
  }
  for (const size of english ? ["large", "largest"] : ["largest"]) {
    await page.evaluate(setType, size);
    await at(`${size} type`, 360, 740, [faults]);
  }
  await page.evaluate(setType, "");
  await at("320 px, as at 400 %", 320, 256, [faults], [covering]);
  return found;
}

/** Whether it can be seen by day, at night and in forced colours, and whether anything moves. */
async function colours(page) {
  const found = named("light", await page.evaluate(faint, urgent));
  await page.setMedia({ "prefers-color-scheme": "dark", "prefers-reduced-motion": "reduce" });
  found.push(...named("dark", await page.evaluate(faint, urgent)), ...await page.evaluate(moving));
  await page.setMedia({ "prefers-color-scheme": "light", "forced-colors": "active" });
  found.push(...named("forced colors", [...await page.evaluate(faint, "never"), ...await page.evaluate(lostPictures), ...await page.evaluate(plated)]));
  await page.setMedia({ "prefers-color-scheme": "light" });
  return found;
}

/**
 * What axe finds. What stays in place lies over a field somewhere, wherever a long page stands, and axe
 * then takes what is left to be seen of the field for all of it: so it goes along with the page here.
 */
async function rules(page, off) {
  await page.setSize(360, 740);
  await page.evaluate(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(".bar, .submit, thead, th { position: static !important }");
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  });
  await page.evaluate(`() => { ${axe}; }`);
  return page.evaluate(axeFindings, off);
}

/** What is wrong, a line each, most frequent first: one fault of a style is in many states. */
function report(found) {
  const by = new Map();
  for (const [name, list] of Object.entries(found)) for (const s of list) by.set(s, [...(by.get(s) ?? []), name]);
  return [...by].sort((a, b) => b[1].length - a[1].length)
    .map(([sentence, names]) => `${sentence} [${names.length}: ${names.slice(0, 3).join(", ")}]`).join("\n");
}

for (const language of engines.includes("chromium") ? languages : [])
  test(`chromium: ${language === "en" ? "every state" : "every kind of screen"} stands the gates in ${language}`, async () => {
    const found = report(await through("chromium", {}, (language === "en" ? states : each).map((s) => `${s}.${language}`), everything));
    assert.equal(found, "");
  });

for (const engine of engines.filter((e) => e !== "chromium"))
  for (const dark of [false, true])
    test(`${engine}: every kind of screen holds together${dark ? " at night" : ""}`, async () => {
      const found = await through(engine, { dark }, (dark ? each.slice(0, 1) : each).map((s) => `${s}.en`), async (page) => {
        await page.evaluate(openFolds);
        return page.evaluate(faults);
      });
      assert.equal(report(found), "");
    });

// A gate that finds nothing is worth as much as its eyes.
if (engines.includes("chromium"))
  test("chromium: the gates see what was put in their way", () =>
    withPage("chromium", {}, async (page) => {
      await page.goto(`${catalogue}static-page.en.html`);
      await page.evaluate(() => {
        // The page's policy has HTML made by its own name for that only; no script of the page has taken it here.
        document.body.innerHTML = trustedTypes.createPolicy("newel", { createHTML: (html) => html }).createHTML(`<p class="far">much too wide</p><p class="one">one text</p><p class="two">another text</p>
          <button class="tiny">x</button><p class="pale">pale</p><p class="white">white</p><p class="bar2">bar</p><svg class="gone" width="50" height="50"><rect width="50" height="50"/></svg><img>`);
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(`.far { width: 900px; background: red } .one, .two { position: absolute; top: 300px; left: 0 } .tiny { width: 20px; height: 20px; min-height: 0; padding: 0 }
          .white { color: Canvas; background: CanvasText } .pale { color: #999; background: #aaa; transition: color 1s !important } .bar2 { position: fixed; bottom: 0; height: 400px } .gone rect { fill: none; stroke: none }`);
        document.adoptedStyleSheets = [sheet];
      });
      const seen = async (what, look, ...args) => assert.match((await page.evaluate(look, ...args)).join("\n"), what);
      await seen(/wide on a screen/, faults);
      await seen(/upon each other: one text/, faults);
      await seen(/small BUTTON/, smallTargets, 48);
      await seen(/faint P\.pale/, faint, urgent);
      await seen(/covering/, covering);
      await seen(/moves: P\.pale transition/, moving);
      await seen(/lost: gone/, lostPictures);
      await page.setMedia({ "forced-colors": "active" });
      await seen(/plated: P\.white/, plated);
      await page.setMedia({});
      await page.evaluate(`() => { ${axe}; }`);
      await seen(/axe image-alt/, axeFindings);
      const file = join(pictures, "blank.png");
      await page.goto("about:blank");
      await page.screenshot(file, false);
      assert.ok(looksBlank(await readFile(file)), "an empty page");
    }));
