// The shell carries questions to the core and its answers to the screen. It decides
// nothing and holds no text for people. Its rules:
//   - a form inside #app is sent to the core, never to a server; one with data-here says
//     beside its fields on which path it was sent
//   - a link to "#…" with data-path asks for that path, with the link's fragment
//   - a link to the id of something on the page scrolls there and leaves the address
//     alone, because the address's fragment holds the plan
//   - any other link is the browser's
//   - whatever fails, what is on the screen stays; a core that failed is started anew and asked once more
//   - what takes long is worked out in a worker; the page says so, and stays alive
//   - what the core leaves to the whole one is asked again once that has come, unless the
//     person asked for something else meanwhile
//   - a fold whose inside the core has left out is filled within the tap that opens it
//   - before the first answer the page may stand as it did the last time (stood.ts); that answer
//     then comes over it as a refresh by the clock does, and what was tapped meanwhile after it
//   - a refresh by the clock moves no focus, makes no history entry, sends nothing, and
//     says a sentence only if it is a new one

import { place, same, write, type Place } from "./address.js";
import { elsewhere, unasked, type Cause } from "./cause.js";
import { drawCodes, listenForCodes } from "./codes.js";
import { restartCore, type Core, type First } from "./core.js";
import { device } from "./device.js";
import { dropDraft, keepDraft, restoreDrafts } from "./draft.js";
import { lockedPage, unlockedPage, wipedPage } from "./errands.js";
import { TooLong, type Pair } from "./exchange.js";
import { fieldsOf } from "./fields.js";
import { handOver, hasFile, readFiles } from "./file.js";
import { focusOn } from "./focus.js";
import { leftFolds, listenForFolds, openAndLeft, setFillAll, wantedFolds } from "./folds.js";
import { plainLink } from "./jumps.js";
import { readHead } from "./head.js";
import { keep, kept, keptOf } from "./kept.js";
import { ownLanguage, setLanguage } from "./language.js";
import { patch, type Manner } from "./patch.js";
import { refreshing } from "./refresh.js";
import { nothingWaits } from "./replace.js";
import { writeRequest, type Question } from "./request.js";
import { readResponse, type Next, type Response } from "./response.js";
import { say } from "./say.js";
import { soon, soonNow } from "./soon.js";
import { send, showOutcome, type Message } from "./send.js";
import { asItStood, comesBack, dropAsItStood, isUpToDate, sayHowItStood, sayThatItWaits, stands } from "./stood.js";
import { listenForTabs } from "./tabs.js";
import { noTrouble, trouble } from "./trouble.js";
import type { Whole } from "./whole.js";
import { wipedElsewhere } from "./wipe.js";

/** What takes long to work out: the best split (core/assign). */
const long = /^\/split\/(suggest|anew|fill|accept)$/;

/** Loads the core, and has the first question answered meanwhile. */
type Loads = (first: First) => Promise<Core>;

/**
 * Starts the shell on app: shows the place that the address names, then listens. loads gives the
 * core, which may have the first question answered before it is there (web/core.ts). Rejects where
 * the core does not come.
 */
export async function startShell(app: HTMLElement, loads: Loads, whole: Whole): Promise<void> {
  await new Shell(app, loads, whole).start();
}

/** Asks a core. Throws where it failed. */
function tried(core: Core, question: Question): Response | "elsewhere" {
  return readResponse(core(writeRequest(question, device(), kept(question))));
}

function inOwnLanguage(response: Response | "elsewhere"): boolean {
  const own = ownLanguage();
  return response === "elsewhere" || own === undefined || response.language === own;
}

class Shell {
  readonly #app: HTMLElement;
  readonly #loads: Loads;
  #core: Core | undefined;
  #coming: Promise<Core> | undefined;
  #begun = false;
  /** What is asked first in place of the address's plan, which another tab has removed meanwhile. */
  #gone: Question | undefined;
  #listens = false;
  /** Ends when a change that takes long is written. */
  #writes: Promise<void> | undefined;
  readonly #whole: Whole;
  readonly #setRefresh: (seconds: number) => void;
  #shown: Place | undefined;
  #said = "";
  #asked = 0;
  /** The number of the question that waits for the whole core, in #asked. */
  #waits = 0;

  constructor(app: HTMLElement, loads: Loads, whole: Whole) {
    this.#app = app;
    this.#loads = loads;
    this.#whole = whole;
    this.#setRefresh = refreshing(
      () => this.#ask({ ...(this.#shown ?? place()), fields: [] }, "clock"),
      () => this.#busy(),
    );
  }

  async start(): Promise<void> {
    this.#stand();
    this.#coming = this.#loads({
      question: () => ({ ...place(), fields: [] }),
      request: (question) => writeRequest(question, device(), kept(question)),
      answered: (answer, question, had) => {
        // An address or a language that was changed meanwhile is the one that the person wants, and what another
        // tab has stored must not be stored over; it is asked for below.
        const response = readResponse(answer);
        if (!this.#gone && same(place(), question) && inOwnLanguage(response) && keptOf(question.fragment) === had) this.#begin(response, question);
      },
    });
    this.#core = await this.#coming;
    if (this.#begun) return;
    const question = this.#gone ?? { ...place(), fields: [] };
    this.#begin(this.#answer(this.#core, question, "person"), question);
  }

  /** Shows the page as it stood the last time, where there is one for this address and hour, and listens from then on. */
  #stand(): void {
    const response = asItStood();
    if (!response) return;
    try {
      if (comesBack()) nothingWaits();
      this.#show(response, "person");
    } catch (fault) {
      console.error(fault);
      dropAsItStood();
    }
    if (!stands()) return;
    sayHowItStood();
    this.#listen();
  }

  /** Shows the first answer, and listens from then on. */
  #begin(response: Response | "elsewhere" | undefined, question: Question): void {
    this.#begun = true;
    this.#got(response, question, stands() && this.#isAt(question) ? "over" : "person");
    this.#listen();
    if (this.#shown) this.#moved(); // the address may have changed while the first question was with the worker
  }

  #listen(): void {
    if (this.#listens) return;
    this.#listens = true;
    // Both, because a link to a fragment and an edited address fire one or both of
    // them, depending on the browser; the second finds nothing new.
    window.addEventListener("popstate", () => this.#moved());
    window.addEventListener("hashchange", () => this.#moved());
    document.addEventListener("submit", (event) => this.#submitted(event));
    document.addEventListener("change", (event) => this.#changed(event));
    document.addEventListener("input", (event) => {
      const { target } = event;
      if (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement) keepDraft(target.form);
    });
    document.addEventListener("click", (event) => this.#clicked(event));
    listenForTabs(
      () => { if (!this.#busy()) this.#ask({ ...(this.#shown ?? place()), fields: [] }, "clock"); },
      () => this.#removed("plan"),
      () => { wipedElsewhere(); this.#removed("all"); },
    );
    listenForCodes();
    listenForFolds(this.#app, (id) => this.#fill([id]));
    setFillAll(() => this.#fill(leftFolds(this.#app)));
  }

  #ask(question: Question, cause: Cause): void {
    if (unasked(cause) && this.#waits > 0 && this.#waits === this.#asked) return; // what waits is what the person wants
    if (!this.#core) {
      void this.#askLater(question, cause);
      return;
    }
    if (this.#writes) { // what came before is written first
      void this.#writes.then(() => this.#again(question, cause));
      return;
    }
    this.#asked++;
    this.#askNow(this.#core, question.folds ? question : { ...question, folds: wantedFolds(this.#app) }, cause);
  }

  #askNow(core: Core, question: Question, cause: Cause): void {
    if (this.#whole.here && long.test(question.path)) {
      const aside = this.#askAside(core, question, cause);
      if (cause instanceof HTMLFormElement) this.#writes = aside.then(() => { this.#writes = undefined; });
      return;
    }
    try {
      this.#got(tried(core, question), question, cause);
    } catch (fault) {
      if (fault instanceof TooLong) this.#failed(fault, cause);
      else void this.#anew(fault, question, cause);
    }
  }

  /**
   * Starts the core anew, since this one has failed, and asks it once more: what was wrong may have gone
   * with its memory. Nothing was stored yet, and what else is tapped waits for it.
   */
  async #anew(fault: unknown, question: Question, cause: Cause): Promise<void> {
    console.warn(fault);
    this.#core = undefined;
    this.#coming = restartCore();
    try {
      this.#core = await this.#coming;
    } catch (again) {
      this.#failed(again, cause);
      return;
    }
    this.#got(this.#answer(this.#core, question, cause), question, cause);
  }

  /** Has folds of the screen filled, beside those that are wanted anyway. */
  #fill(ids: readonly string[]): void {
    this.#ask({ ...(this.#shown ?? place()), fields: [], folds: [...new Set([...wantedFolds(this.#app), ...ids])] }, "fold");
  }

  /** Asks what had to wait. A fold is filled on the screen that stands there by then. */
  #again(question: Question, cause: Cause): void {
    if (cause !== "fold") this.#ask(question, cause);
    else if (question.folds?.some((id) => leftFolds(this.#app).includes(id))) this.#fill(question.folds);
  }

  /** Asks a worker. What only shows something gives way to whatever else the person asks for meanwhile. */
  async #askAside(core: Core, question: Question, cause: Cause): Promise<void> {
    const asked = this.#asked;
    this.#waits = asked;
    const had = keptOf(question.fragment);
    let response: Response | "elsewhere" | undefined;
    try {
      response = readResponse(await this.#whole.aside(writeRequest(question, device(), kept(question))));
      if (keptOf(question.fragment) !== had) throw new Error("another tab has stored this plan otherwise meanwhile");
    } catch (fault) {
      console.warn(fault);
      if (asked === this.#asked) response = this.#answer(core, question, cause); // as if there were no worker
    }
    if (this.#waits === asked) this.#waits = 0;
    if (asked === this.#asked) this.#got(response, question, cause);
  }

  /** Asks in its turn, once the page's own core is there: the first answer came before it. */
  async #askLater(question: Question, cause: Cause): Promise<void> {
    if (cause !== "clock") sayThatItWaits();
    try {
      await this.#coming;
    } catch {
      trouble("core"); // whoever started the shell is told why
      if (cause instanceof HTMLFormElement) takeBack(cause);
      return;
    }
    if (cause !== "clock") this.#again(question, cause);
  }

  #got(response: Response | "elsewhere" | undefined, question: Question, cause: Cause): void {
    if (!response) return;
    if (response === "elsewhere") {
      if (this.#whole.runs) this.#failed(new Error(`no core has an answer for ${question.path}`), cause);
      else void this.#askWhole(question, cause);
      return;
    }
    if (cause instanceof HTMLFormElement) dropDraft(cause); // not before: until now nobody else had what was typed
    noTrouble("core");
    noTrouble("whole");
    noTrouble("large");
    try {
      this.#show(response, cause);
      isUpToDate(response);
      noTrouble("page");
      // One that was opened on the page as it stood: nobody knew of it when the first question was asked.
      if (cause === "over" && openAndLeft(this.#app)) this.#fill([]);
    } catch (fault) {
      console.error(fault);
      this.#rescue(response.fragment);
      trouble("page");
    }
    this.#whole.fetchWhenIdle();
  }

  /**
   * Writes a plan that could not be shown into the address, on the screen where it is: storage may be full,
   * and the link that is offered as a copy is the address. Another plan, or none, is not what is to be saved.
   */
  #rescue(fragment: string): void {
    const [saved, here] = [readHead(fragment), readHead(place().fragment)];
    if (fragment === "" || (saved && here && here.number !== saved.number)) return;
    try {
      write({ ...place(), fragment }, false);
    } catch (fault) {
      console.error(fault); // Safari after many writes, which may be why it could not be shown
    }
    if (this.#shown) this.#shown = place();
  }

  /** Asks the whole core, once it is there. Until then, and if it does not come, the screen stays. */
  async #askWhole(question: Question, cause: Cause): Promise<void> {
    const asked = this.#asked;
    this.#waits = asked;
    try {
      this.#core = await this.#whole.load();
      this.#waits = 0;
      if (asked === this.#asked) this.#ask(question, cause);
    } catch (fault) {
      console.error(fault);
      if (this.#waits === asked) this.#waits = 0;
      if (asked !== this.#asked || unasked(cause)) return;
      if (cause instanceof HTMLFormElement) keepDraft(cause);
      trouble("whole");
    }
  }

  #answer(core: Core, question: Question, cause: Cause): Response | "elsewhere" | undefined {
    try {
      return tried(core, question);
    } catch (fault) {
      this.#failed(fault, cause);
      return undefined;
    }
  }

  /** Says that a question has no answer. What a form would have changed is as it was. */
  #failed(fault: unknown, cause: Cause): void {
    console.error(fault);
    trouble(fault instanceof TooLong ? "large" : "core");
    if (cause instanceof HTMLFormElement) takeBack(cause);
  }

  #show(response: Response, cause: Cause): void {
    const asked = !unasked(cause);
    // First: what is drawn can be asked for again, and what was changed cannot.
    this.#store(response);
    setLanguage(response.language, response.direction);
    patch(this.#app, response.html, this.#manner(response, cause), response.fragment);
    if (cause === "person" || cause === "screen" || cause === "history" || cause === "fold") restoreDrafts(this.#app);
    void drawCodes(this.#app);
    document.title = response.title;
    // Back must never make a new entry: it would lead to itself for ever.
    write({ path: response.path, fragment: response.fragment }, asked && cause !== "history" && response.push);
    this.#shown = place(); // read back: the browser may have escaped a letter
    // Another screen is read from its top, whatever was in view on the one before.
    if (asked) focusOn(response.focus === "" && elsewhere(cause) ? "title" : response.focus);
    // The steps of something long are not read out; its end is.
    if (cause === "again" ? response.say !== "" : asked || response.say !== this.#said) say(response.say);
    this.#said = response.say;
    this.#setRefresh(response.refresh);
    // Last, and within the same event: browsers share and save only right after a click.
    if (asked && response.send) void this.#send(response.send, cause);
    if (asked && response.file) handOver(response.file);
    if (asked && response.lock) void this.#after(lockedPage(response.lock));
    if (asked && response.unlock) void this.#after(unlockedPage(response.unlock));
    if (asked && response.wipe) void wipedPage().then((question) => this.#ask(question, "person"));
    if (asked && response.again) this.#goOn(response.again);
  }

  /** Asks for the next step once this one is drawn, unless the person has asked for something else. */
  #goOn({ path, fields }: Next): void {
    const { fragment } = this.#shown ?? place();
    const asked = this.#asked;
    const next = (): void => {
      if (asked === this.#asked) this.#ask({ path, fragment, fields }, "again");
    };
    // Two timers deep, a browser has drawn; frames alone do not come to a page in the background.
    setTimeout(() => setTimeout(next));
  }

  /** Hands a link over, and asks for the same screen again with what came of it. */
  async #send(message: Message, cause: Cause): Promise<void> {
    const from = this.#shown;
    const outcome = await send(message);
    if (!from || !this.#isAt(from)) return; // the person has gone elsewhere
    if (outcome === "shared" || outcome === "copied") {
      const fields = cause instanceof HTMLFormElement ? fieldsOf(cause, null, from.path) : [];
      this.#ask({ ...from, fields: [...fields, ["sent", outcome]] }, "clock");
    }
    showOutcome(message, outcome);
  }

  /** Asks what an errand ends in, unless the person has gone elsewhere meanwhile. */
  async #after(errand: Promise<Question>): Promise<void> {
    const from = this.#shown;
    const question = await errand;
    // An opened link is another plan, to be read from its top.
    if (this.#isAt(from)) this.#ask(question, question.path === "/" ? "screen" : "person");
  }

  /** Another tab has removed what stands here: it must not be kept again, and the core says why. */
  #removed(what: "plan" | "all"): void {
    const question: Question = { path: "/", fragment: "", fields: [["elsewhere", what]] };
    if (this.#begun) this.#ask(question, "person");
    else this.#gone = question; // the page stands as it did the last time
  }

  /** Whether the screen is still that one; a refresh by the clock may have come over it. */
  #isAt(from: Place | undefined): boolean {
    return from !== undefined && this.#shown !== undefined && same(this.#shown, from);
  }

  #manner(response: Response, cause: Cause): Manner {
    if (unasked(cause)) return { kind: "unasked" };
    const sent = cause instanceof HTMLFormElement ? cause : undefined;
    return { kind: "answer", sent, samePath: !elsewhere(cause) && this.#shown?.path === response.path };
  }

  #store(response: Response): void {
    if (response.keep.length + response.drop.length === 0) return;
    if (keep(response.keep, response.drop)) noTrouble("storage");
    else trouble("storage");
  }

  #moved(): void {
    const now = place();
    if (this.#shown && same(now, this.#shown)) return;
    soonNow();
    if (stands() && now.fragment !== this.#shown?.fragment) {
      location.reload(); // else another plan's page would stand at this address until the core comes
      return;
    }
    // A link to another plan, or to the start, is a move to another screen; the browser's
    // own back and forward are not told apart from it, and a top is a fair place for both.
    this.#ask({ ...now, fields: [] }, "history");
  }

  #submitted(event: SubmitEvent): void {
    const form = event.target;
    if (!(form instanceof HTMLFormElement) || !this.#app.contains(form)) return;
    event.preventDefault();
    soonNow();
    // getAttribute, not form.action: that one is a full address, or a field of that name.
    const path = event.submitter?.getAttribute("formaction") ?? form.getAttribute("action") ?? "/";
    const from = place();
    const fields = fieldsOf(form, event.submitter, from.path);
    const ask = (more: Pair[]): void => this.#ask({ path, fragment: from.fragment, fields: [...fields, ...more] }, form);
    if (!hasFile(form)) {
      ask([]);
      return;
    }
    readFiles(form).then(
      (files) => {
        if (same(place(), from)) ask(files); // else the person has gone elsewhere
      },
      (fault: unknown) => { // the file went away in the meantime
        console.error(fault);
        trouble("page");
      },
    );
  }

  #changed(event: Event): void {
    const control = event.target;
    if (!(control instanceof HTMLInputElement || control instanceof HTMLSelectElement)) return;
    const { form } = control;
    if (!form || !control.hasAttribute("data-send") || !this.#app.contains(control)) return;
    const from = place();
    const question = { path: form.getAttribute("action") ?? "/", fragment: from.fragment, fields: fieldsOf(form, null, from.path) };
    soon(() => {
      // The answer to an earlier tick may have changed the address; only the person leads elsewhere.
      if (form.isConnected && this.#isAt(place())) form.requestSubmit();
      else if (same(place(), from)) this.#ask(question, "person"); // a refresh has put something else in the form's place
      else this.#keepOnly(question);
    });
  }

  /** Has the core do what the person did on a screen that they have left since: it is kept, and not shown. */
  #keepOnly(question: Question): void {
    if (!this.#core) {
      void this.#coming?.then(() => this.#keepOnly(question), () => trouble("core"));
      return;
    }
    const response = this.#answer(this.#core, question, "person");
    if (response && response !== "elsewhere") this.#store(response);
  }

  #clicked(event: MouseEvent): void {
    const link = plainLink(event); // a jump inside the page was taken care of before
    const path = link?.getAttribute("data-path");
    if (!link || path === null || path === undefined) return;
    event.preventDefault();
    soonNow();
    this.#ask({ path, fragment: (link.getAttribute("href") ?? "").slice(1), fields: [] }, "screen");
  }

  /** On another screen than the plan, a focused field means that somebody is typing. */
  #busy(): boolean {
    const active = document.activeElement;
    return this.#shown?.path !== "/" && this.#app.contains(active)
      && active !== null && active.matches("input, select, textarea, button");
  }
}

/** Shows what a form that could not be sent was before: a tick that was not kept is none. What was typed stays. */
function takeBack(form: HTMLFormElement): void {
  keepDraft(form);
  if (form.querySelector("[data-send]")) form.reset();
}
