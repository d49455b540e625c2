// A stand-in for the worker that makes a core ready: it answers the first question with a screen
// of its own. What takes long it answers with the same one, once it hears of that on the channel "aside",
// where it says itself that it was asked.

function encode(pairs) {
  const texts = pairs.flat().map((text) => new TextEncoder().encode(text));
  const message = new Uint8Array(texts.reduce((sum, text) => sum + 4 + text.length, 0));
  let at = 0;
  for (const text of texts) {
    new DataView(message.buffer).setUint32(at, text.length, true);
    message.set(text, at + 4);
    at += 4 + text.length;
  }
  return message;
}

const screen = `<h1 id="top">From the worker</h1><a id="facts-link" href="#p1" data-path="/facts">Facts</a>
  <form action="/tick"><input type="checkbox" id="first" name="first" data-send></form>
  <form action="/tick"><input type="checkbox" id="second" name="second" data-send></form>`;

let aside = false;

function letGo() {
  const channel = new BroadcastChannel("aside");
  return new Promise((go) => {
    channel.onmessage = go;
    channel.postMessage("asked");
  });
}

self.addEventListener("message", async ({ data }) => {
  if (data.core) {
    self.postMessage({ module: await WebAssembly.compileStreaming(fetch(data.core)) });
  }
  if (data.module) aside = true; // made before
  if (data.request) {
    if (aside) await letGo();
    self.postMessage({ answer: encode([["title", "t"], ["html", screen], ["language", "en"], ["direction", "ltr"], ["fragment", "p1"], ["path", "/"], ["push", ""], ["say", ""], ["focus", ""], ["refresh", "0"]]) });
  }
});
