// What several browser tests do on the page, as the people do it.

/** A phone in the hospital's own zone. */
export const phone = { width: 360, height: 740, timezone: "America/Chicago", language: "en-US", now: "2026-11-24T15:00:00Z" };

/** What a part says, also where it is folded away. */
export const said = (page, selector = "#app") =>
  page.evaluate((s) => document.querySelector(s)?.textContent.replace(/\s+/g, " ").trim() ?? "", selector);

/** The same, with a space between the texts of elements: blocks stand beside each other without one. */
export const saidApart = (page, selector = "#app") =>
  page.evaluate((s) => {
    const part = document.querySelector(s);
    if (!part) return "";
    // Blocks stand beside each other without white space, so their texts are parted here.
    const texts = document.createTreeWalker(part, NodeFilter.SHOW_TEXT);
    const all = [];
    while (texts.nextNode()) all.push(texts.currentNode.data);
    return all.join(" ").replace(/\s+/g, " ").trim();
  }, selector);

/** The date so many days after today in Chicago, by the page's own clock, as YYYY-MM-DD. */
export async function dayFromNow(page, days) {
  const now = await page.evaluate(() => Date.now());
  const iso = new Intl.DateTimeFormat("en-CA", { timeZone: "America/Chicago" }).format(now);
  const date = new Date(`${iso}T00:00:00Z`);
  date.setUTCDate(date.getUTCDate() + days);
  return date.toISOString().slice(0, 10);
}

/** Waits until the core's page of that path is there. */
export const at = (page, path) =>
  page.until((p) => history.state?.path === p && document.querySelector("#waiting") === null, path);

/** Opens folds by a tap on each, where they are not open, and waits until they have their inside. */
export async function unfold(page, ...ids) {
  for (const id of ids) {
    await page.evaluate((i) => {
      const fold = document.getElementById(i);
      if (!fold.open) fold.querySelector("summary").click();
    }, id);
    await page.until((i) => document.querySelector(`#${i}[open]:not([data-fold="left"])`) !== null, id);
  }
}

/** Waits until all folds have their inside: those that the core has left out are filled as for paper. */
export async function fillFolds(page) {
  await page.evaluate(() => { window.dispatchEvent(new Event("beforeprint")); window.dispatchEvent(new Event("afterprint")); });
  await page.until(() => document.querySelector('details[data-fold="left"]') === null);
}

/** Taps the link to a screen, wherever it is folded away. */
export async function go(page, path) {
  if (!(await page.evaluate((p) => document.querySelector(`[data-path="${p}"]`) !== null, path))) await fillFolds(page);
  await page.evaluate((p) => document.querySelector(`[data-path="${p}"]`).click(), path);
  await at(page, path);
}

/** Fills in a form as its pickers do, and sends it. */
export async function send(page, action, values, next = "/") {
  await page.evaluate((name, fields) => {
    const form = document.querySelector(`form[action="${name}"]`);
    for (const [key, value] of Object.entries(fields)) {
      const field = form.elements.namedItem(key);
      if (field instanceof RadioNodeList || field.type === "radio") form.querySelector(`[name="${key}"][value="${value}"]`).checked = true;
      else if (field.type === "checkbox") field.checked = value;
      else field.value = value;
    }
    form.requestSubmit();
  }, action, values);
  await at(page, next);
}

/** Opens an address as a tapped link does, in a tab that had another page. */
export async function open(page, address) {
  await page.goto("about:blank");
  await page.goto(address);
  await page.until(() => document.querySelector("#title") !== null && document.querySelector("#waiting") === null);
}

/** Copies the link on the page for sending it, and gives what was copied. */
export async function copyLink(page) {
  await page.click("#link-copy");
  await page.until(() => document.querySelector("[data-copied]").getClientRects().length > 0);
  return page.clipboard();
}

/** Pastes a text into the box for links on the front, and opens the link in it. */
export async function paste(page, text) {
  await page.evaluate((t) => { document.querySelector("#field-paste").value = t; }, text);
  await page.click("#paste .submit button");
}
