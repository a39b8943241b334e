// Fetches and starts the page's program while the page is still being read; then
// fetches the canvas's program, compiles it and passes it to its frame. The page
// works without the canvas while that is loading, or if it never arrives.
'use strict';

(() => {
  const root = document.documentElement;
  const setup = document.getElementById('loader').dataset;
  const part = (id) => document.getElementById(id);

  // Resolves when the page has been parsed and its scripts have run: Go's among them.
  const read = new Promise((resolve) => {
    if (window.Go) resolve();
    else document.addEventListener('DOMContentLoaded', resolve);
  });

  // Resolves when the page has been parsed, whether or not its scripts have run.
  const parsed = new Promise((resolve) => {
    if (document.readyState !== 'loading') resolve();
    else document.addEventListener('readystatechange', resolve, { once: true });
  });

  // The first read from the device's storage waits for the disk, and may be refused.
  // While the programs are downloading it costs nothing.
  try {
    window.localStorage.getItem('');
  } catch {
    // the page's program finds out too, and says so
  }

  // A first visit without a link begins with the start, which is laid out with the page.
  // The page's program decides by the same rule (app.First).
  if (window.location.hash.length < 2 && !recall('localStorage', 'pivotbench-start') && !recall('localStorage', 'pivotbench-kept')) {
    root.dataset.start = '';
  }

  // A page opened as a file has no origin to name. The receiver is our own frame.
  const target = window.origin === 'null' ? '*' : window.origin;

  const here = { page: 0, table: 0 }; // bytes so far, decoded
  const whole = { page: Number(setup.pageSize), table: Number(setup.tableSize) };

  function show() {
    if (document.readyState === 'loading') return; // the elements may not be there yet
    const progress = part('progress');
    hide();
    const share = Math.min(1, (here.page + here.table) / (whole.page + whole.table));
    progress.querySelector('progress').value = share;
    progress.querySelector('span').textContent = `Loading Pivotbench: ${Math.round(100 * share)} %`;
  }

  // Counting costs time, so it is left out where everything arrives at once: from
  // the offline worker, or on a line that delivered the page itself in no time.
  const AT_ONCE = 100; // ms
  const [came] = performance.getEntriesByType('navigation');
  const uncounted = Boolean(navigator.serviceWorker && navigator.serviceWorker.controller)
    || Boolean(came && came.responseEnd > 0 && came.responseEnd - came.requestStart < AT_ONCE);

  // counted returns the response with its bytes counted as they are read.
  function counted(response, name) {
    if (!response.ok) throw new Error(`the server answered ${response.status}`);
    if (uncounted || !response.body || !window.TransformStream) return response;
    here[name] = 0;
    const count = new TransformStream({
      transform(chunk, out) {
        here[name] += chunk.byteLength;
        moved = Date.now();
        show();
        out.enqueue(chunk);
      },
    });
    return new Response(response.body.pipeThrough(count), { headers: { 'Content-Type': 'application/wasm' } });
  }

  // get returns the response for a program: from this very file if it holds the
  // program, otherwise from the server. A second request cancels the first and
  // bypasses the browser's cache, which may have half the file or a wrong one.
  const giveUp = {};
  async function get(name) {
    const inside = part(`${name}-program`);
    if (!inside) {
      const before = giveUp[name];
      if (before) before.abort();
      giveUp[name] = new AbortController();
      return fetch(setup[name], { priority: name === 'page' ? 'high' : 'low', cache: before ? 'reload' : 'default', signal: giveUp[name].signal });
    }
    if (!window.DecompressionStream) throw new Error('this browser is too old to unpack it. Pivotbench on a web address may work');
    const packed = atob(inside.textContent);
    const bytes = new Uint8Array(packed.length);
    for (let i = 0; i < packed.length; i++) bytes[i] = packed.charCodeAt(i);
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
    return new Response(stream, { headers: { 'Content-Type': 'application/wasm' } });
  }

  async function compile(name, coming) {
    const response = counted(await coming, name);
    // Streaming compiles a program while it downloads, and lets the browser cache the
    // result for the next visit. It needs the right type, which some hosts don't
    // send; then the same bytes are compiled once they are all here.
    const type = response.headers.get('Content-Type');
    if (WebAssembly.compileStreaming && type === 'application/wasm') return WebAssembly.compileStreaming(response);
    const bytes = await response.arrayBuffer();
    const magic = String.fromCharCode(...new Uint8Array(bytes, 0, Math.min(4, bytes.byteLength)));
    if (magic !== '\0asm') throw new Error('the server sent something else in its place');
    return WebAssembly.compile(bytes);
  }

  // trouble says over the drawing what went wrong with a program, and offers to
  // retry. If both programs fail, each has a message of its own.
  async function trouble(name, words, retry) {
    await parsed;
    clear(name);
    const note = document.createElement('p');
    note.dataset.trouble = name;
    note.setAttribute('role', 'alert');
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = 'Try again';
    button.addEventListener('click', () => {
      clear(name);
      retry();
    });
    note.append(words, ' ', button);
    part('progress').append(note);
    hide();
    if (name === 'page') offerNewer();
  }

  // A version whose program fails at the start can't offer a newer version, so this
  // script does. After two failed starts in a row it switches by itself, but only
  // once a visit, as the newer version may fail too.
  const STARTS = 'pivotbench-starts';
  const TAKEN = 'pivotbench-taken';
  function recall(storage, key) {
    try {
      return window[storage].getItem(key);
    } catch {
      return null;
    }
  }
  function note(storage, key, value) {
    try {
      window[storage].setItem(key, value);
    } catch {
      // then the newer version is only offered
    }
  }
  const starts = Number(recall('localStorage', STARTS)) + 1;
  note('localStorage', STARTS, starts);

  function offerNewer() {
    const said = document.querySelector('[data-trouble="page"]');
    if (!said || !['update', 'stuck'].includes(root.dataset.offline)) return;
    const take = () => document.dispatchEvent(new CustomEvent('apply-update'));
    if (starts >= 2 && root.dataset.state === 'still' && !recall('sessionStorage', TAKEN)) {
      note('sessionStorage', TAKEN, 'yes');
      take();
      return;
    }
    const before = said.querySelector('[data-newer]');
    if (before) before.remove();
    const offer = document.createElement('span');
    offer.dataset.newer = '';
    if (root.dataset.offline === 'stuck') offer.append(' The newer version did not start: close the other tabs of this page first.');
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = 'Use new version';
    button.addEventListener('click', take);
    offer.append(' ', button);
    said.append(offer);
  }
  document.addEventListener('offline-state', offerNewer);

  // expect shows a message if something has not arrived and no byte has come in for
  // a while. If it arrives after all, the message goes away.
  const STALLED_MS = 20_000;
  let moved; // when the last byte came in
  function expect(name, coming, words, retry) {
    moved = Date.now();
    let said = false;
    const watch = setInterval(() => {
      if (said || Date.now() - moved < STALLED_MS) return;
      said = true;
      trouble(name, words, retry);
    }, 1000);
    coming.then(() => said && clear(name), () => {}).then(() => clearInterval(watch));
  }

  // clear removes the message about a program.
  function clear(name) {
    const note = document.querySelector(`[data-trouble="${name}"]`);
    if (note) note.remove();
    hide();
  }

  // hide hides the progress once the canvas is ready and there is no message.
  function hide() {
    const progress = part('progress');
    progress.hidden = root.dataset.canvas === 'ready' && !progress.querySelector('p');
  }

  let turn = 0; // counts attempts: only the last one matters
  let settle;
  const tried = new Promise((resolve) => { settle = resolve; }); // resolves once the program runs, or has failed to
  async function startPage(compiled) {
    const mine = ++turn;
    // If Go's script is missing, only a reload can help.
    const retry = () => (window.Go ? startPage(compile('page', get('page'))) : window.location.reload());
    const all = Promise.all([compiled, read]);
    expect('page', all, 'Pivotbench has not loaded yet: the connection may be stuck. The drawing shows the starting shot.', retry);
    let go, program;
    try {
      const [module] = await all;
      if (!window.Go) throw new Error('part of the page did not arrive');
      go = new Go();
      go.env.GOGC = '400'; // fewer garbage collections during the start
      program = await WebAssembly.instantiate(module, go.importObject);
    } catch (e) {
      if (mine !== turn) return;
      trouble('page', `Pivotbench did not start: ${e.message}. The drawing shows the starting shot.`, retry);
      settle();
      return;
    }
    if (mine !== turn) return;
    // The program never ends by itself: if it does, something went wrong.
    const ended = go.run(program);
    settle();
    if (root.dataset.state !== 'still') note('localStorage', STARTS, 0); // a good start
    ended.catch(() => {}).then(() => {
      root.dataset.ended = ''; // the figures on the page are out of date
      trouble('page', 'Pivotbench stopped, so the numbers are out of date. Your shot is in the address and your records are on this device. Reload to go on.', () => window.location.reload());
    });
  }

  let table; // a promise of the compiled program
  function fetchTable(coming) {
    const compiled = compile('table', coming);
    table = compiled;
    const retry = () => {
      fetchTable(get('table'));
      send();
    };
    expect('table', compiled, 'The live drawing has not loaded yet: the connection may be stuck. Everything else works.', retry);
    compiled.catch((e) => {
      if (compiled === table) trouble('table', `The live drawing did not start: ${e.message}. Everything else works.`, retry);
    });
  }

  // quiet waits until no finger is down and the browser is idle: starting the canvas
  // blocks a slow phone for a second or more.
  const down = new Set();
  function follow(event) {
    if (event.buttons > 0) down.add(event.pointerId);
    else down.delete(event.pointerId); // a move without a button counts as the end, which a browser may not report
  }
  for (const name of ['pointerdown', 'pointermove', 'pointerup', 'pointercancel']) window.addEventListener(name, follow, true);
  const idle = window.requestIdleCallback ? (f) => window.requestIdleCallback(f, { timeout: 1000 }) : (f) => setTimeout(f, 50);
  async function quiet() {
    do {
      await new Promise(idle);
      while (down.size > 0) await new Promise((resolve) => { setTimeout(resolve, 100); });
    } while (down.size > 0);
  }

  async function send() {
    try {
      const module = await table;
      await quiet();
      part('table').contentWindow.postMessage({ module }, target);
    } catch {
      // the message is there already
    }
  }

  // The frame asks for the program once its page and script have run. If it has not
  // asked soon after loading, a part of it did not arrive; and a line may stall
  // before it loads.
  let asked; // true: it has asked; false: a message says that it has not
  let late;
  const LOADED_MS = 2000;
  function expectAsking(ms) {
    clearTimeout(late);
    late = setTimeout(() => {
      if (asked) return;
      asked = false;
      trouble('table', 'The live drawing did not start: part of it did not arrive. You have the plain drawing, and everything else works.', fill);
    }, ms);
  }

  // fill loads the frame's page, even if it was loaded before: the frame may show the
  // browser's own error page, which scripts can't touch.
  function fill() {
    const frame = part('table');
    asked = undefined;
    expectAsking(STALLED_MS);
    frame.addEventListener('load', () => expectAsking(LOADED_MS), { once: true });
    if (setup.board) frame.srcdoc = setup.board;
    else frame.src = 'table.html';
  }

  function hear(event) {
    const frame = part('table');
    if (event.source !== frame.contentWindow || event.origin !== window.origin || typeof event.data !== 'object' || !event.data) return;
    if (event.data.want === 'module') {
      if (asked === false) clear('table');
      asked = true;
      delete root.dataset.canvas;
      send();
    }
    if (event.data.ready === true) {
      root.dataset.canvas = 'ready'; // for the page's program, if that starts later
      clear('table');
    }
    if (typeof event.data.failed === 'string') {
      root.dataset.canvas = 'failed';
      trouble('table', `The live drawing did not start: ${event.data.failed}. You have the plain drawing, and everything else works.`, () => {
        delete root.dataset.canvas;
        frame.contentWindow.location.reload();
      });
    }
  }

  // In the one-file build, ?wall shows the board in place of the page, with the
  // program that the file holds.
  if (setup.board && new URLSearchParams(window.location.search).has('wall')) {
    window.boardProgram = compile('table', get('table'));
    document.open();
    document.write(setup.board);
    document.close();
    return;
  }

  async function start() {
    if (typeof WebAssembly !== 'object') {
      trouble('page', 'This browser has no WebAssembly, which Pivotbench needs. The drawing shows the starting shot.', () => window.location.reload());
      return;
    }
    const page = compile('page', get('page'));
    startPage(page);
    // The canvas's program is fetched once the page's has arrived, and compiled once
    // that answers: doing it earlier would delay the first readings.
    const coming = Promise.race([page.catch(() => {}), tried]).then(() => get('table'));
    coming.catch(() => {}); // fetchTable reports it
    await read;
    show();
    await tried;
    if (!window.Go) return; // startPage has said so, and the canvas needs Go too
    fetchTable(coming);
    part('paper').after(part('frame').content.cloneNode(true)); // creating a document takes time, so it comes last
    window.addEventListener('message', hear);
    fill();
  }
  start();
})();
