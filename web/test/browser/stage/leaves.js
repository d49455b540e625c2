// A stand-in for the worker that makes a core ready: the near core leaves the first question to the whole one.

const texts = ["elsewhere", "1"].map((text) => new TextEncoder().encode(text));
const elsewhere = new Uint8Array(texts.reduce((sum, text) => sum + 4 + text.length, 0));
let at = 0;
for (const text of texts) {
  new DataView(elsewhere.buffer).setUint32(at, text.length, true);
  elsewhere.set(text, at + 4);
  at += 4 + text.length;
}

self.addEventListener("message", async ({ data }) => {
  if (data.core) self.postMessage({ module: await WebAssembly.compileStreaming(fetch(data.core)) });
  if (data.request) self.postMessage({ answer: elsewhere });
});
