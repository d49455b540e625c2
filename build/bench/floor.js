import "wasm_exec";

const go = new Go();
const name = document.querySelector("link[rel=preload]").href;
WebAssembly.instantiateStreaming(fetch(name), go.importObject).then((made) => go.run(made.instance));
