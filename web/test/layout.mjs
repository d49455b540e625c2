// Whether a screen holds together: nothing reaches over an edge, nothing is cut off and no
// two texts lie upon each other. For any language and direction.

/** What does not hold together, as a list of sentences. Runs in the page. */
export function faults() {
  const wide = document.documentElement.clientWidth;
  const found = [];
  if (document.documentElement.scrollWidth > wide) found.push(`${document.documentElement.scrollWidth} px wide on a screen of ${wide} px`);
  const short = (text) => text.replace(/\s+/g, " ").trim().slice(0, 40);
  const seen = (e) => e.checkVisibility({ visibilityProperty: true }) && !e.closest(".unseen, .skip:not(:focus), option, select, datalist");
  // What stays in place while the page is scrolled lies over it, and is meant to.
  const staysInPlace = (e) => e !== null && (/^(fixed|sticky)$/.test(getComputedStyle(e).position) || staysInPlace(e.parentElement));
  const words = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const parent = node.parentElement;
    if (node.data.trim() === "" || !seen(parent)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const fixed = staysInPlace(parent);
    // A control with a border of its own holds its words.
    const box = parent.closest("button, .main, .second, .bar a, .sign.now h3 a")?.getBoundingClientRect();
    for (const r of range.getClientRects()) {
      if (r.width < 1) continue;
      if (r.left < -0.5 || r.right > wide + 0.5) found.push(`over the edge: ${short(node.data)} (${r.left} to ${r.right})`);
      if (box && (r.left < box.left - 1 || r.right > box.right + 1)) found.push(`out of its control: ${short(node.data)}`);
      // Lines stand closer than letters are high on paper: the middle is what is read.
      if (!fixed) words.push({ node, top: r.top + r.height * 0.3, bottom: r.bottom - r.height * 0.3, left: r.left + 1, right: r.right - 1 });
    }
  }
  words.sort((a, b) => a.top - b.top);
  words.forEach((a, i) => {
    for (let j = i + 1; j < words.length && words[j].top < a.bottom; j++) {
      const b = words[j];
      if (a.node !== b.node && a.left < b.right && b.left < a.right) found.push(`upon each other: ${short(a.node.data)} / ${short(b.node.data)}`);
    }
  });
  for (const e of document.querySelectorAll("body *")) {
    if (e.matches("input, textarea, select, svg, svg *") || !seen(e)) continue;
    const { overflowX, overflowY } = getComputedStyle(e);
    const cuts = (overflowX !== "visible" && e.scrollWidth > e.clientWidth + 1) || (overflowY !== "visible" && e.scrollHeight > e.clientHeight + 1);
    if (cuts) found.push(`cut off: ${e.tagName} ${short(e.textContent)}`);
  }
  return found;
}

/**
 * Goes through every screen that links lead to, from the present one on, and calls look(path)
 * on each. Of screens that differ only in which duty, day or person they are of, it takes
 * some: at most `most` of a kind. Gives the paths.
 */
export async function everyScreen(page, look, most = 2) {
  const been = [];
  const kinds = new Map();
  const ahead = [await page.evaluate(() => history.state.path)];
  const known = new Set(ahead);
  while (ahead.length > 0) {
    const path = ahead.shift();
    await page.evaluate((p) => {
      history.replaceState({ path: p }, "", location.hash);
      dispatchEvent(new PopStateEvent("popstate"));
    }, path);
    // The core answers within the event; some paths lead on to the screen that they are about.
    await page.until(() => document.querySelector("#title") !== null);
    been.push(path);
    await look(path);
    const linked = await page.evaluate(() => [...document.querySelectorAll("#app [data-path]")]
      .filter((a) => a.getAttribute("href") === location.hash).map((a) => a.getAttribute("data-path")));
    for (const next of linked) {
      const kind = next.replace(/\d+/g, "N").replace(/^(\/(?:who|helper|calendar|read)\/).*/, "$1…");
      const count = kinds.get(kind) ?? 0;
      if (known.has(next) || count >= most) continue;
      known.add(next);
      kinds.set(kind, count + 1);
      ahead.push(next);
    }
  }
  return been;
}

/**
 * The words on the screen, folded away or not, in names of controls and in titles, that are
 * written in plain letters: in the pseudo-language those are no words of the guide.
 */
export const plainWords = (page) =>
  page.evaluate(() => {
    const texts = [document.title];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) if (!node.parentElement.closest('script, noscript, .languages, [translate="no"]')) texts.push(node.data);
    for (const e of document.querySelectorAll("[aria-label], [placeholder], [title], [data-label]"))
      texts.push(e.getAttribute("aria-label") ?? "", e.getAttribute("placeholder") ?? "", e.getAttribute("title") ?? "", e.dataset.label ?? "");
    return [...new Set(texts.join(" ").match(/(?<![\p{L}\p{M}])[A-Za-z]{3,}(?![\p{L}\p{M}])/gu) ?? [])];
  });
