// Gets the page's program while the page is still being read and starts it; then
// has its hands free for the canvas's, and hands that, compiled, to its frame.
// The page works while the canvas is on its way, and if it never comes.
'use strict';

(() => {
  const root = document.documentElement;
  const setup = document.getElementById('loader').dataset;
  const part = (id) => document.getElementById(id);

  // All of the page is there, and so is Go, whose script waits for that.
  const read = new Promise((resolve) => {
    if (window.Go) resolve();
    else document.addEventListener('DOMContentLoaded', resolve);
  });

  // All of the page is there, if not yet every script.
  const parsed = new Promise((resolve) => {
    if (document.readyState !== 'loading') resolve();
    else document.addEventListener('readystatechange', resolve, { once: true });
  });

  // The first look into the device's storage waits for the disk, and may be
  // refused: while the programs are on their way it costs nothing.
  try {
    window.localStorage.getItem('');
  } catch {
    // the page's program hears of it too
  }

  // Pages opened as files have no origin to name. The receiver is our own frame.
  const target = window.origin === 'null' ? '*' : window.origin;

  const here = { page: 0, table: 0 }; // bytes so far, decoded
  const whole = { page: Number(setup.pageSize), table: Number(setup.tableSize) };

  function show() {
    if (document.readyState === 'loading') return; // what shows it may be half there
    const progress = part('progress');
    hide();
    const share = Math.min(1, (here.page + here.table) / (whole.page + whole.table));
    progress.querySelector('progress').value = share;
    progress.querySelector('span').textContent = `loading the bench: ${Math.round(100 * share)} %`;
  }

  // Counting costs time, and there is nothing to count where all is here at
  // once: what the offline worker holds, and on a line that brought the page
  // itself in no time.
  const AT_ONCE = 100; // ms
  const [came] = performance.getEntriesByType('navigation');
  const uncounted = Boolean(navigator.serviceWorker && navigator.serviceWorker.controller)
    || Boolean(came && came.responseEnd > 0 && came.responseEnd - came.requestStart < AT_ONCE);

  // counted passes a response through and counts its bytes.
  function counted(response, name) {
    if (!response.ok) throw new Error(`the server answered ${response.status} for the ${name} program`);
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

  // get is a program as it comes: out of this very file if that holds it, else
  // from the server. One asked for before is given up, and passed over in what the
  // browser keeps: it may be half there, or another file.
  const giveUp = {};
  async function get(name) {
    const inside = part(`${name}-program`);
    if (!inside) {
      const before = giveUp[name];
      if (before) before.abort();
      giveUp[name] = new AbortController();
      return fetch(setup[name], { priority: name === 'page' ? 'high' : 'low', cache: before ? 'reload' : 'default', signal: giveUp[name].signal });
    }
    if (!window.DecompressionStream) throw new Error('this browser is too old to unpack it; the bench on a web address may work');
    const packed = atob(inside.textContent);
    const bytes = new Uint8Array(packed.length);
    for (let i = 0; i < packed.length; i++) bytes[i] = packed.charCodeAt(i);
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
    return new Response(stream, { headers: { 'Content-Type': 'application/wasm' } });
  }

  async function compile(name, coming) {
    const response = counted(await coming, name);
    // As it comes, a program is compiled while its bytes do, and the browser may
    // keep what it made of it for the next visit. That takes the right type, which
    // some hosts don't send; the bytes are the same.
    const type = response.headers.get('Content-Type');
    if (WebAssembly.compileStreaming && type === 'application/wasm') return WebAssembly.compileStreaming(response);
    const bytes = await response.arrayBuffer();
    const magic = String.fromCharCode(...new Uint8Array(bytes, 0, Math.min(4, bytes.byteLength)));
    if (magic !== '\0asm') throw new Error(`the server sent something else in place of the ${name} program`);
    return WebAssembly.compile(bytes);
  }

  // trouble says what failed of a program where the drawing would have been,
  // and offers to retry. Both may fail, each with words of its own.
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

  // A version whose program dies at its start can't offer the one that mends it,
  // so this script does; and takes it by itself once that program has died twice
  // in a row, but only once a visit: the newer one may die as well.
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
      // then it is only offered
    }
  }
  const starts = Number(recall('localStorage', STARTS)) + 1;
  note('localStorage', STARTS, starts);

  function offerNewer() {
    const said = document.querySelector('[data-trouble="page"]');
    if (!said || root.dataset.offline !== 'update') return;
    const take = () => document.dispatchEvent(new CustomEvent('apply-update'));
    if (starts >= 2 && root.dataset.state === 'still' && !recall('sessionStorage', TAKEN)) {
      note('sessionStorage', TAKEN, 'yes');
      take();
      return;
    }
    if (said.querySelector('[data-newer]')) return;
    const button = document.createElement('button');
    button.type = 'button';
    button.dataset.newer = '';
    button.textContent = 'Use the newer version';
    button.addEventListener('click', take);
    said.append(' ', button);
  }
  document.addEventListener('offline-state', offerNewer);

  // expect says so when what was asked for is not there and no byte has been
  // counted for a while. It may still come, and then that is taken back.
  const STALLED_MS = 20_000;
  let moved; // when a byte was counted last
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

  // clear takes back what was said of a program.
  function clear(name) {
    const note = document.querySelector(`[data-trouble="${name}"]`);
    if (note) note.remove();
    hide();
  }

  // hide takes the progress out of sight once all is here and nothing is said.
  function hide() {
    const progress = part('progress');
    progress.hidden = root.dataset.canvas === 'ready' && !progress.querySelector('p');
  }

  let turn = 0; // of trying; an earlier one has been given up
  let settle;
  const tried = new Promise((resolve) => { settle = resolve; }); // once it runs, or failed to
  async function startPage(compiled) {
    const mine = ++turn;
    // Without the script that runs it there is no trying again but from the start.
    const retry = () => (window.Go ? startPage(compile('page', get('page'))) : window.location.reload());
    const all = Promise.all([compiled, read]);
    expect('page', all, "The page's program has not arrived: the line may have stalled. The drawing is the starting shot.", retry);
    let go, program;
    try {
      const [module] = await all;
      if (!window.Go) throw new Error('a part of the page did not arrive');
      go = new Go();
      go.env.GOGC = '400'; // the start makes less garbage than is then looked for
      program = await WebAssembly.instantiate(module, go.importObject);
    } catch (e) {
      if (mine !== turn) return;
      trouble('page', `The page's program did not start: ${e.message}. The drawing is the starting shot.`, retry);
      settle();
      return;
    }
    if (mine !== turn) return;
    // It waits for ever: if it ends, something went wrong in it.
    const ended = go.run(program);
    settle();
    if (root.dataset.state !== 'still') note('localStorage', STARTS, 0); // it started well
    ended.catch(() => {}).then(() => {
      root.dataset.ended = ''; // what is shown is from before
      trouble('page', "The page's program ended: the figures are from before that. The address has the last shot, and this device what was kept.", () => window.location.reload());
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
    expect('table', compiled, 'The canvas has not arrived: the line may have stalled. Everything else works.', retry);
    compiled.catch((e) => {
      if (compiled === table) trouble('table', `The canvas did not start: ${e.message}. Everything else works.`, retry);
    });
  }

  // quiet waits until no finger is down and the browser has nothing else to do:
  // the canvas's start holds a slow phone for a second or more.
  const down = new Set();
  function follow(event) {
    if (event.buttons > 0) down.add(event.pointerId);
    else down.delete(event.pointerId); // so does a move, should the browser have kept the end to itself
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
      // said already
    }
  }

  // A frame whose page or script did not arrive asks for nothing: once it is
  // loaded it would have, and a line may stall before.
  let asked; // false: it was waited for in vain
  let late;
  const LOADED_MS = 2000;
  function expectAsking(ms) {
    clearTimeout(late);
    late = setTimeout(() => {
      if (asked) return;
      asked = false;
      trouble('table', 'The canvas did not start: a part of it did not arrive. The plain drawing stays; everything else works.', fill);
    }, ms);
  }

  // fill gives the frame its page, anew if need be: what it holds may be the
  // browser's own word of a failure, which no page may touch.
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
      root.dataset.canvas = 'ready'; // for the page's program, should it start last
      clear('table');
    }
    if (typeof event.data.failed === 'string') {
      root.dataset.canvas = 'failed';
      trouble('table', `The canvas did not start: ${event.data.failed}. The plain drawing stays; everything else works.`, () => {
        delete root.dataset.canvas;
        frame.contentWindow.location.reload();
      });
    }
  }

  // The one file is its own wall too: ?wall shows the board in its place, with
  // the program it holds.
  if (setup.board && new URLSearchParams(window.location.search).has('wall')) {
    window.boardProgram = compile('table', get('table'));
    document.open();
    document.write(setup.board);
    document.close();
    return;
  }

  async function start() {
    if (typeof WebAssembly !== 'object') {
      trouble('page', 'This browser has no WebAssembly, which the bench is made of. The drawing is the starting shot.', () => window.location.reload());
      return;
    }
    const page = compile('page', get('page'));
    startPage(page);
    // The line is free once the page's program is here, and the cores once it
    // answers: both at once would make it answer later.
    const coming = Promise.race([page.catch(() => {}), tried]).then(() => get('table'));
    coming.catch(() => {}); // heard of below
    await read;
    show();
    await tried;
    if (!window.Go) return; // said already, and the canvas can't do without it either
    fetchTable(coming);
    part('paper').after(part('frame').content.cloneNode(true)); // a document of its own takes its time
    window.addEventListener('message', hear);
    fill();
  }
  start();
})();
