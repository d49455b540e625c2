// A walk through the whole product: every screen that a link leads to, and every button of every form, once each
// (see shape). What a screen may do outside of the page (the sharing sheet, the printer, a
// file) is caught in the page.

import { unfold } from "./family.mjs";

/** Words that are typed in on the way, which stand nowhere else. */
export const typed = ["Quillonette", "Bramblewick", "velvet otter parade"];

/** With NEWEL_LONG every chapter, sheet and duty; without it one of each kind, and one value of each box in a form. */
const all = process.env.NEWEL_LONG === "1";

/** What stands for several paths, or buttons of a form, that are one place. */
function shape(path) {
  const numbered = path.replace(/\d+/g, "N");
  return all ? numbered : numbered.replace(/^(\/(?:calendar\/\w+|desk\/class|duty\/new|guide|print|who))\/.*/, "$1/*").replace(/ (?!act=)(.*)=.*/, " $1");
}

/** What ends the walk's own plan or leads to another one: left to the end, or to other tests. */
const kept = /^\/(?:forget|put-back|link\/afresh|join|device\/wipe)$/;

/** How many steps a walk takes at most; one that does not end is a fault of the page, or of the walk. */
const most = all ? 2500 : 250;

/** Waits until the page has answered, the whole core and a worker included. */
const settled = (page) => page.until(() => {
  const busy = (id) => document.getElementById(id)?.hidden === false;
  return document.getElementById("title") !== null && document.getElementById("waiting") === null && !busy("fetching") && !busy("working");
});

/** Catches what would leave the page for the device. */
const catchAll = (page) => page.evaluate(() => {
  window.print = () => { window.dispatchEvent(new Event("beforeprint")); window.dispatchEvent(new Event("afterprint")); };
  navigator.share = () => Promise.resolve();
  HTMLAnchorElement.prototype.click = function click() { if (!this.download) this.dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true })); };
});

/** Follows a link to a path, as one on the page would be followed: in the plan as it is now, or to another one. */
const follow = (page, [path, other]) => page.evaluate((to, hash) => {
  const link = document.createElement("a");
  link.href = hash ?? (location.hash || "#");
  link.dataset.path = to;
  document.getElementById("app").append(link);
  link.dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true }));
}, path, other);

/** Where links lead, as [path, the fragment if it is another one], and what forms there are, as [name, action, place of the form, place of its button]. */
const ways = (page) => page.evaluate(() => ({
  path: history.state?.path ?? "/",
  title: document.title,
  hash: location.hash,
  links: [...document.querySelectorAll("#app [data-path]")].map((link) => [link.dataset.path, link.getAttribute("href") === (location.hash || "#") ? null : link.getAttribute("href")]),
  forms: [...document.querySelectorAll("#app form")].flatMap((form, at) =>
    [...form.querySelectorAll("button, input[type=checkbox]")].map((button, of) => [`${form.getAttribute("action")} ${button.name}=${button.value}`, form.getAttribute("action"), at, of])),
}));

const table = "Label\tDate\tArrival\tJoint\tStay\nBed 1\t2026-12-08\t05:30\tknee\tone night\nBed 2\t2026-12-09\t06:00\thip\tsame day";

/** Sends a form by one of its buttons; what is to be written in is written in. */
const press = (page, at, of) => page.evaluate((n, m, words, rows) => {
  const form = document.querySelectorAll("#app form")[n];
  if (form.getAttribute("action") === "/desk/rows" && form.elements.text) form.elements.text.value = rows;
  for (const field of form.querySelectorAll('input[type="date"]')) if (field.value === "") field.value = "2026-12-08";
  for (const field of form.querySelectorAll('input[type="text"]:not([name="zone"]):not([list]), textarea:not([hidden])')) if (field.value === "") field.value = words[0];
  const phrase = form.querySelector('[name="phrase"]');
  if (phrase) phrase.value = words[2];
  const button = form.querySelectorAll("button, input[type=checkbox]")[m];
  if (button instanceof HTMLInputElement) button.click();
  else form.requestSubmit(button.type === "submit" ? button : undefined);
}, at, of, typed, table);

/** Opens the QR code of a screen that has one. */
async function code(page) {
  if (!(await page.evaluate(() => document.querySelector("#link-code") !== null))) return;
  await unfold(page, "link-code");
  await page.until(() => document.querySelector("#link-code [data-code] svg") !== null);
}

/** Walks from the screen that stands there. seen({ path, title, hash }) is told of each screen. Gives the shapes of all that was met. */
export async function walk(page, seen) {
  await catchAll(page);
  const [screens, forms] = [new Set(), new Set()];
  const [near, far] = [[], []]; // links within the plan, and those that leave it: last, since there is no way back
  const known = new Set();
  for (let step = 0; step < most; step++) {
    await settled(page);
    const here = await ways(page);
    seen(here);
    screens.add(shape(here.path));
    if (here.path === "/link") await code(page);
    for (const [path, other] of here.links) {
      const name = `${shape(path)} ${other !== null}`;
      if (known.has(name)) continue;
      known.add(name);
      (other === null ? near : far).push([path, other]);
    }
    const form = here.forms.find(([name, action]) => !forms.has(shape(name)) && !kept.test(action));
    if (form) {
      forms.add(shape(form[0]));
      await press(page, form[2], form[3]);
      continue;
    }
    const next = near.shift() ?? far.shift();
    if (!next) return { screens, forms };
    await follow(page, next);
  }
  throw new Error(`the walk has not come to its end after ${most} steps: ${[...near, ...far]}`);
}
