// Starts the canvas's program in table.html: with the module the page around
// hands over, or fetched here when the board is opened by itself.
'use strict';

(() => {
  const framed = window.parent !== window;
  // Pages opened as files have no origin to name.
  const target = window.origin === 'null' ? '*' : window.origin;
  const address = document.getElementById('loader').dataset.table;

  // Animation frames are held back while there is nothing to draw: a loop that
  // only asks for the next one keeps a phone warm. pump lets one through.
  const ask = window.requestAnimationFrame.bind(window);
  let held = null;
  let owed = 2; // the program's first frames
  window.requestAnimationFrame = (callback) => {
    if (owed > 0) {
      owed--;
      return ask(callback);
    }
    held = callback;
    return 0;
  };
  window.pump = () => {
    if (!held) {
      owed = 1;
      return;
    }
    const callback = held;
    held = null;
    ask(callback);
  };

  // Asked only once something failed: a context of its own costs as much as
  // the one the program needs.
  function hasWebGL() {
    const probe = document.createElement('canvas');
    return Boolean(probe.getContext('webgl2') || probe.getContext('webgl'));
  }

  // A program that ends says so in more than one way; the first is the reason.
  let told = false;
  function failed(reason) {
    if (told) return;
    told = true;
    const words = hasWebGL() ? String((reason && reason.message) || reason) : 'this browser has no WebGL';
    if (framed) {
      window.parent.postMessage({ failed: words }, target);
      return;
    }
    const note = document.getElementById('trouble');
    const again = document.createElement('button');
    again.type = 'button';
    again.textContent = 'Try again';
    again.addEventListener('click', () => window.location.reload());
    note.hidden = false;
    note.replaceChildren(`The table can't be drawn here: ${words}. `, again);
    document.documentElement.dataset.state = 'failed';
  }

  // get fetches and compiles the program. Some hosts send it with a type of their
  // own, which a browser won't compile as it comes.
  async function get() {
    const response = await fetch(address);
    if (!response.ok) throw new Error(`the server answered ${response.status}`);
    if (WebAssembly.compileStreaming && response.headers.get('Content-Type') === 'application/wasm') return WebAssembly.compileStreaming(response);
    return WebAssembly.compile(await response.arrayBuffer());
  }

  async function start(module) {
    if (!window.Go) throw new Error('a part of this page did not arrive');
    const go = new Go();
    go.env.GOGC = '400'; // the start makes less garbage than is then looked for
    await go.run(await WebAssembly.instantiate(module, go.importObject));
    failed('the drawing program ended');
  }

  // A program can't outlive its drawing context: the frame starts over, but not
  // for ever where it does no good. The count is in the frame's name, which
  // outlasts a reload and no browser refuses.
  const MOST = 4;
  const WELL_MS = 20_000; // a program that has run so long started well
  function again(reason) {
    const times = (Number(window.name) || 0) + 1;
    if (times > MOST) return failed(reason);
    window.name = times;
    window.location.reload();
  }
  setTimeout(() => { window.name = ''; }, WELL_MS);
  document.addEventListener('webglcontextlost', (event) => {
    event.stopImmediatePropagation(); // the drawing library would start over for ever
    again('the drawing context was lost');
  }, true);

  // Nor a change of the pixels' size, by zooming or on another screen. Some
  // browsers tell a frame of that by its new size alone.
  const pixels = window.devicePixelRatio;
  function look() {
    if (window.devicePixelRatio !== pixels) window.location.reload();
  }
  window.matchMedia(`(resolution: ${pixels}dppx)`).addEventListener('change', look);
  window.addEventListener('resize', look);

  window.addEventListener('error', (event) => failed(event.error || event.message));
  window.addEventListener('unhandledrejection', (event) => failed(event.reason));

  // The board's buttons go out of the picture while nobody moves.
  const IDLE = 3000;
  let rest = 0;
  function stir() {
    delete document.documentElement.dataset.idle;
    window.clearTimeout(rest);
    rest = window.setTimeout(() => { document.documentElement.dataset.idle = ''; }, IDLE);
  }
  function board() {
    for (const name of ['pointermove', 'pointerdown', 'keydown', 'focusin']) document.addEventListener(name, stir, true);
    const full = document.getElementById('full');
    full.hidden = !document.fullscreenEnabled;
    full.addEventListener('click', () => {
      const done = document.fullscreenElement ? document.exitFullscreen() : document.documentElement.requestFullscreen();
      done.catch(() => { full.hidden = true; }); // it is not to be had here after all
      full.blur();
    });
    stir();
  }

  if (!framed) {
    board();
    (window.boardProgram || get()).then(start).catch(failed);
    return;
  }
  window.addEventListener('message', function take(event) {
    if (event.source !== window.parent || event.origin !== window.origin || !event.data || !(event.data.module instanceof WebAssembly.Module)) return;
    window.removeEventListener('message', take);
    start(event.data.module).catch(failed);
  });
  window.parent.postMessage({ want: 'module' }, target);
})();
