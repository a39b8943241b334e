// The offline worker. It keeps one version of the site, whole or not at all,
// and answers from that version only: nothing is ever added as it goes.
//
// The build puts the constant RELEASE above this line: the version's name and
// every file of it with its integrity hash.

const SCOPE = new URL('./', self.location);

// Copies of the site under other paths of the same host have caches of their
// own, which are none of this worker's business.
const PREFIX = `pivotbench-${SCOPE.pathname}-`;
const CACHE = PREFIX + RELEASE.version;

// What the cache holds: every file, and the page under the folder's name too,
// which is its address.
const FOLDER = '';
const HELD = [...Object.keys(RELEASE.files), FOLDER];

self.addEventListener('install', (event) => {
  event.waitUntil(route(event));
  event.waitUntil(install());
});
self.addEventListener('activate', (event) => event.waitUntil(activate()));

self.addEventListener('fetch', (event) => {
  const name = fileFor(event.request);
  if (name !== undefined) event.respondWith(answer(name, event.request));
});

self.addEventListener('message', (event) => {
  const port = event.ports[0];
  switch (event.data && event.data.type) {
    case 'apply':
      self.skipWaiting();
      break;
    case 'version':
      if (port) port.postMessage({ version: RELEASE.version });
      break;
    case 'hold':
      if (port) event.waitUntil(hold().then((whole) => port.postMessage({ whole })));
      break;
  }
});

// install stores this version whole, or leaves nothing of it. Asking again at
// the end notices a cache that another version's start threw away meanwhile.
async function install() {
  try {
    await store(HELD);
    if ((await missing()).length > 0) throw new Error('the cache was emptied while it was filled');
    // A version kept under types that no browser runs can't even offer this one.
    for (const key of await versions()) await mend(await caches.open(key));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

// route has the browser, where it can, take what the cache holds from there
// itself: a page that opens need not wait for this worker to start. What the
// browser has dropped it asks the network for, as answer does.
async function route(event) {
  const plain = (path) => path.replace(/[*+?:(){}\\]/g, '\\$&'); // nothing in it is a pattern
  try {
    await event.addRoutes(HELD.map((name) => ({
      condition: { urlPattern: { pathname: plain(new URL(name, SCOPE).pathname), search: '' }, requestMethod: 'GET' },
      source: { cacheName: CACHE },
    })));
  } catch {
    // the worker answers for all itself
  }
}

// activate throws away the other versions, and takes over pages that were
// opened before there was a worker: they too can lose the network.
async function activate() {
  for (const key of await versions()) {
    if (key !== CACHE) await caches.delete(key);
  }
  await self.clients.claim();
}

// versions names the caches of every version kept for this very path.
async function versions() {
  return (await caches.keys()).filter((key) => key.startsWith(PREFIX) && /^[0-9a-f]+$/.test(key.slice(PREFIX.length)));
}

// hold tells whether every file is here, after fetching those that a browser
// short of space has dropped.
async function hold() {
  try {
    const gone = await missing();
    if (gone.length > 0) await store(gone);
    await mend(await caches.open(CACHE));
    return (await missing()).length === 0;
  } catch {
    return false;
  }
}

async function missing() {
  if (!(await caches.has(CACHE))) return HELD;
  const cache = await caches.open(CACHE);
  const held = new Set((await cache.keys()).map((request) => request.url));
  return HELD.filter((name) => !held.has(address(name)));
}

// mend gives files in a cache the types they should have: earlier workers kept
// those that the host sent. The bytes were checked when they came.
async function mend(cache) {
  await Promise.all((await cache.keys()).map(async (request) => {
    const kept = await cache.match(request);
    const type = typeOf(request.url);
    if (!kept || !type || kept.headers.get('Content-Type') === type) return;
    await cache.put(request, new Response(await kept.blob(), { headers: { 'Content-Type': type } }));
  }));
}

// store fetches files and keeps them once every one has come and is right.
async function store(names) {
  const responses = await Promise.all(names.map(fetchRight));
  const cache = await caches.open(CACHE);
  await Promise.all(names.map((name, i) => cache.put(address(name), responses[i])));
}

// fetchRight fetches a file and checks it. The page has just loaded most of the
// hashed ones, so the browser's own copy will do; if that one is bad, the
// network is asked past it. Pages have no hash in their name: a copy of one may
// be of another version.
async function fetchRight(held) {
  const name = held === FOLDER ? 'index.html' : held;
  if (name.endsWith('.html')) return fetchChecked(name, 'no-store');
  return fetchChecked(name, 'default').catch(() => fetchChecked(name, 'reload'));
}

// The type of each file by its ending: a host may send another, under which a
// browser runs nothing, and what is kept would stay so when the host is mended.
const TYPES = {
  html: 'text/html; charset=utf-8', js: 'text/javascript; charset=utf-8', css: 'text/css; charset=utf-8',
  wasm: 'application/wasm', svg: 'image/svg+xml', png: 'image/png', webmanifest: 'application/manifest+json',
  txt: 'text/plain; charset=utf-8',
};

// typeOf is the type for an address. One without an ending is the folder's, which
// is a page.
function typeOf(url) {
  const name = url.split('/').pop();
  return TYPES[name === '' ? 'html' : name.split('.').pop()];
}

// A line that has stalled is given up after so long.
const STALLED_MS = 5 * 60_000;

// fetchChecked gives a response made anew: one that remembers a redirection,
// as from table.html to table, cannot answer a navigation.
async function fetchChecked(name, cache) {
  const signal = AbortSignal.timeout ? AbortSignal.timeout(STALLED_MS) : undefined;
  const response = await fetch(address(name), { cache, integrity: RELEASE.files[name], signal });
  if (!response.ok) throw new Error(`${name}: status ${response.status}`);
  const headers = { 'Content-Type': typeOf(name) || response.headers.get('Content-Type') || '' };
  return new Response(await response.blob(), { headers });
}

// answer gives a file of this version. Should the browser have dropped it, the
// network can only give the same file or none, as its name holds its hash; a
// page may be newer, and then asks for newer files.
async function answer(name, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(address(name))) || fetch(request);
}

// fileFor names the file a request is for, if it is one of this version. A page
// is found whatever its query; index.html also as the folder, and either page
// without its ending, which some hosts drop.
function fileFor(request) {
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== SCOPE.origin) return undefined;
  if (!url.pathname.startsWith(SCOPE.pathname)) return undefined;
  const name = url.pathname.slice(SCOPE.pathname.length);
  if (request.mode === 'navigate') {
    return [name || 'index.html', `${name}.html`].find(listed);
  }
  return url.search === '' && listed(name) ? name : undefined;
}

function listed(name) {
  return Object.hasOwn(RELEASE.files, name);
}

function address(name) {
  return new URL(name, SCOPE).href;
}
