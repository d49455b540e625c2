// The page's own core is started when letCore() is called.
const start = WebAssembly.instantiate.bind(WebAssembly);
const wanted = new Promise((resolve) => { globalThis.letCore = resolve; });
WebAssembly.instantiate = async (...given) => {
  await wanted;
  return start(...given);
};
