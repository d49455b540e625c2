// A stand-in for the core and for Go's loader: a few made-up screens that speak the
// exchange, so that the shell is tested alone. It shares no code with the real core.
// Everything it was asked is in globalThis.asked; globalThis.extra is put at the top of
// the next screens, as a change that came from elsewhere.

import { decode, encode } from "/shell/exchange.js";

globalThis.asked = [];
globalThis.answeredBy = [];
globalThis.extra = "";

globalThis.Go = class {
  importObject = {};
  run(instance) {
    const isWhole = "whole" in instance.exports;
    globalThis.newelHandle = (message) => handle(message, isWhole);
    return new Promise(() => {});
  }
};

const rows = ["one", "two", "three"];

const plan = () => `${extra}<h1 id="top">Plan</h1>
  <a id="jump" href="#lists">Lists</a>
  <a id="facts-link" href="#p1" data-path="/facts">Facts</a>
  <a id="second-plan" href="#p2">Another plan</a>
  <input id="typing" name="typing" value="">
  <details id="why"><summary>Why</summary>Because</details>
  <ul>${rows.map((row) => `<li id="row-${row}"><button id="button-${row}" type="button">${row}</button></li>`).join("\n")}</ul>
  <h2 id="lists">Lists</h2>`;

const facts = (name, tick) => `${extra}<h1 id="top">Facts</h1>
  <form id="form" action="/save">
    <input id="name" name="name" value="${name}">
    <input type="checkbox" id="cook" name="can" value="cook">
    <input type="checkbox" name="can" value="drive" checked>
    <textarea name="note">two
lines</textarea>
    <button id="save" name="act" value="save">Save</button>
    <button id="add" name="act" value="add" formaction="/add">Add</button>
  </form>
  <form id="draft" action="/draft"><input id="draft-text" name="text" value=""></form>
  <form id="ticks" action="/tick"><input type="checkbox" id="tick" name="tick" data-send ${tick ? "checked" : ""}>
    <select id="choice" name="choice" data-send><option>a</option><option>b</option></select></form>
  <form action="/throw"><button id="throw">throw</button></form>
  <form action="/dead"><button id="dead">dead</button></form>
  <form action="/junk"><button id="junk">junk</button></form>
  <form action="/keep"><button id="keep">keep</button></form>
  <form id="far-form" action="/far" data-draft="far"><input id="far-text" name="text" value=""><button id="far">far</button></form>
  <a id="far-link" href="#p1" data-path="/far">far</a>
  <form action="/nowhere" data-draft="nowhere"><input id="nowhere-text" name="text" value=""><button id="nowhere">nowhere</button></form>
  <form action="/send"><button id="send">send</button></form>
  <form action="/lock"><button id="lock">lock</button></form>
  <form action="/unlock"><button id="unlock">unlock</button></form>
  <p hidden><input data-address readonly></p>`;

const secret = (kind, fragment) => [[`${kind}.phrase`, "four warm loaves of bread"], [`${kind}.fragment`, fragment]];

function handle(message, isWhole) {
  const pairs = decode(message);
  asked.push(pairs);
  answeredBy.push(isWhole ? "whole" : "near");
  const { path, fragment } = Object.fromEntries(pairs);
  const answer = { title: path, html: facts("Ann", false), language: "en", direction: "ltr", fragment, path: "/facts", push: "", say: "", focus: "" };
  let more = [];
  switch (path) {
    case "/": Object.assign(answer, { html: plan(), path: "/" }); break;
    case "/fast": Object.assign(answer, { path: "/fast" }); more = [["refresh", "1"]]; break;
    case "/facts": Object.assign(answer, { push: "1", focus: "top" }); break;
    case "/save": Object.assign(answer, { html: facts("SAVED", false), say: "Saved.", fragment: "p3" }); break;
    case "/tick": Object.assign(answer, { say: "This cannot be ticked yet." }); break;
    case "/far":
      if (!isWhole) return encode([["elsewhere", "1"]]);
      Object.assign(answer, { html: '<h1 id="top">Far</h1>', path: "/far" });
      break;
    case "/nowhere": return encode([["elsewhere", "1"]]);
    case "/keep": more = [["keep.me", "2"], ["keep.gone", "x"], ["drop.gone", ""]]; break;
    case "/send": more = [["send.title", "A plan"], ["send.text", "Open this:"]]; break;
    case "/lock": Object.assign(answer, { path: "/link/lock" }); more = secret("lock", "AAEC"); break;
    case "/link": Object.assign(answer, { path: "/link/lock" }); break;
    case "/unlock":
      Object.assign(answer, { path: "/" });
      if (!pairs.some(([name]) => name === "field.phrase")) more = secret("unlock", fragment);
      break;
    case "/throw": return null;
    case "/dead": return undefined;
    case "/junk": return new Uint8Array([9, 9, 9]);
  }
  return encode([...Object.entries(answer), ...(more[0]?.[0] === "refresh" ? more : [...more, ["refresh", "0"]])]);
}
