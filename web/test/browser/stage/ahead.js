// A stand-in for the worker that makes a core ready: it gives the module, and leaves the first
// question to the page.

const pieces = [];

async function ready() {
  const module = await WebAssembly.compile(await new Blob(pieces).arrayBuffer());
  self.postMessage({ module });
  self.postMessage({ fault: "this one answers nothing" });
}

self.addEventListener("message", ({ data }) => {
  if (data.piece) pieces.push(data.piece);
  if (data.ends) ready().catch((fault) => self.postMessage({ fault: String(fault) }));
});
