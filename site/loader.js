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
        show();
        out.enqueue(chunk);
      },
    });
    return new Response(response.body.pipeThrough(count), { headers: { 'Content-Type': 'application/wasm' } });
  }

  // get is a program as it comes: out of this very file if that holds it, else
  // from the server.
  async function get(name) {
    const inside = part(`${name}-program`);
    if (!inside) return fetch(setup[name], { priority: name === 'page' ? 'high' : 'low' });
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
    // keep what it made of it for the next visit.
    if (WebAssembly.compileStreaming) return WebAssembly.compileStreaming(response);
    return WebAssembly.compile(await response.arrayBuffer());
  }

  // trouble says what failed of a program where the drawing would have been,
  // and offers to retry. Both may fail, each with words of its own.
  async function trouble(name, words, retry) {
    await read;
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

  async function startPage(compiled) {
    let go, program;
    try {
      const module = await compiled;
      await read;
      go = new Go();
      go.env.GOGC = '400'; // the start makes less garbage than is then looked for
      program = await WebAssembly.instantiate(module, go.importObject);
    } catch (e) {
      trouble('page', `The page's program did not start: ${e.message}. The drawing is the starting shot.`, () => startPage(compile('page', get('page'))));
      return;
    }
    // It waits for ever: if it ends, something went wrong in it.
    go.run(program).catch(() => {}).then(() => trouble('page', "The page's program ended. The address has the last shot, and this device what was kept.", () => window.location.reload()));
  }

  let table; // a promise of the compiled program
  function fetchTable(coming) {
    table = compile('table', coming);
    table.catch((e) => trouble('table', `The canvas did not start: ${e.message}. Everything else works.`, () => {
      fetchTable(get('table'));
      send();
    }));
  }

  async function send() {
    try {
      part('table').contentWindow.postMessage({ module: await table }, target);
    } catch {
      // said already
    }
  }

  function hear(event) {
    const frame = part('table');
    if (event.source !== frame.contentWindow || event.origin !== window.origin || typeof event.data !== 'object' || !event.data) return;
    if (event.data.want === 'module') {
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

  async function start() {
    if (typeof WebAssembly !== 'object') {
      trouble('page', 'This browser has no WebAssembly, which the bench is made of. The drawing is the starting shot.', () => window.location.reload());
      return;
    }
    const page = compile('page', get('page'));
    const tried = startPage(page);
    // The line is free once the page's program is here, and the cores once it
    // answers: both at once would make it answer later.
    const coming = page.catch(() => {}).then(() => get('table'));
    fetchTable(tried.then(() => coming));
    await read;
    show();
    await tried;
    part('paper').after(part('frame').content.cloneNode(true)); // a document of its own takes its time
    window.addEventListener('message', hear);
    if (setup.board) part('table').srcdoc = setup.board;
    else part('table').src = 'table.html';
  }
  start();
})();
