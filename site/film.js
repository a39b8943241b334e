// The worker that reads films: it runs the program for that, and reports if the program
// does not arrive, does not start, or ends.
'use strict';

importScripts('{{asset "wasm_exec.js"}}');

(async () => {
  try {
    const response = await fetch('{{asset "film.wasm"}}');
    if (!response.ok) throw new Error(`the server answered ${response.status}`);
    const go = new Go();
    // The bytes are compiled once they are all here: a host may send a wrong type.
    const { instance } = await WebAssembly.instantiate(await response.arrayBuffer(), go.importObject);
    await go.run(instance);
    throw new Error('the program ended');
  } catch (e) {
    self.postMessage({ failed: e.message });
  }
})();
