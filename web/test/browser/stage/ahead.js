// A stand-in for the worker that makes a core ready: it gives the module, and leaves the first
// question to the page.

async function ready(core) {
  const response = await fetch(core);
  if (!response.ok) throw new Error(`${core} gave status ${response.status}`);
  const module = await WebAssembly.compile(await response.arrayBuffer());
  self.postMessage({ module });
  self.postMessage({ fault: "this one answers nothing" });
}

self.addEventListener("message", ({ data }) => {
  if (data.core) ready(data.core).catch((fault) => self.postMessage({ fault: String(fault) }));
});
