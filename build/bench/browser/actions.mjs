// What a helper does with a plan that is open: each action with where it begins, what the finger
// does, and how to see that the answer is there. Every function runs in the page.

/** Shared by the functions below, once in each page. */
export function tools() {
  const one = (selector) => {
    const found = document.querySelector(selector);
    if (!found) throw new Error(`the page ${history.state?.path} has nothing that fits ${selector}`);
    return found;
  };
  const at = (path) => history.state?.path === path && document.getElementById("waiting") === null;
  window.bench = {
    go: (path) => one(`#app [data-path="${path}"]`).click(),
    at,
    hash: () => location.hash,
    // Who has a date, by the form on the duty's page; "-" is nobody.
    give: (who) => {
      const button = one('#app button[name="act"][value="give"]');
      button.form.elements.namedItem("who").value = who;
      button.click();
    },
    // The first that is not ticked; where all are, the first.
    box: () => document.querySelector('#app form[action="/tick"] input[type="checkbox"]:not(:checked)') ?? one('#app form[action="/tick"] input[type="checkbox"]'),
    press: (action) => one(`#app form[action${action}] button`).click(),
    duty: () => one('#app [data-path^="/duty/"]:not([data-path*="/new/"])').getAttribute("data-path"),
    one,
  };
}

const changed = (before) => window.bench.hash() !== before.hash;
const isAt = (path) => `(before) => bench.at(${JSON.stringify(path)})`;
const go = (path) => `() => bench.go(${JSON.stringify(path)})`;
const onDuty = "(before) => /^\\/duty\\/\\d+$/.test(history.state?.path)";

/**
 * The actions in the order in which they are done. from is a list of steps to get there, none of
 * them measured: [what to do, how to see that it is done].
 */
export const actions = [
  { name: "open", from: [["() => { location.hash = 'start'; }", "() => document.getElementById('next') === null"]],
    act: "(links) => { location.hash = links.now; }", done: isAt("/") },
  { name: "tick", act: () => window.bench.box().click(), done: changed },
  { name: "family", act: go("/split"), done: isAt("/split") },
  { name: "suggest", act: go("/split/suggest"), done: isAt("/split/suggest") },
  { name: "plan", from: [[go("/split"), isAt("/split")]], act: go("/"), done: isAt("/") },
  { name: "duty", act: "() => bench.go(bench.duty())", done: onDuty },
  { name: "take", act: "(links) => bench.give(links.helper)", done: changed },
  { name: "give-back", act: '() => bench.give("-")', done: changed },
  { name: "duty-form", act: "() => bench.one('#app [data-path$=\"/change\"]').click()", done: "(before) => /\\/change$/.test(history.state?.path)" },
  { name: "drop", from: [["() => history.back()", onDuty]], act: () => window.bench.press('$="/drop"'), done: changed },
  { name: "undo", act: () => window.bench.press('$="/put-back"'), done: changed },
  { name: "link", from: [["() => { if (!bench.at('/')) bench.go('/'); }", isAt("/")]], act: go("/link"), done: isAt("/link") },
  { name: "language", from: [[go("/"), isAt("/")]], act: () => window.bench.press('="/language"'), done: "(before) => document.documentElement.lang !== before.lang" },
  { name: "language-back", act: () => window.bench.press('="/language"'), done: "(before) => document.documentElement.lang !== before.lang" },
  { name: "join", act: "(links) => { location.hash = links.joins; }", done: "(before) => bench.at('/') && bench.hash() !== before.hash && bench.hash() !== '#' + before.links.joins" },
];
