// The offline worker. It keeps one version of the site, complete or not at all, and
// answers from that version only. Nothing is added to it later.
//
// The build puts the constant RELEASE above this line: the version's name, and each
// of its files with its integrity hash.

const SCOPE = new URL('./', self.location);

// Copies of the site at other paths of the same host have caches of their own, which
// this worker leaves alone.
const PREFIX = `pivotbench-${SCOPE.pathname}-`;
const CACHE = PREFIX + RELEASE.version;

// What the cache holds: every file, and the page a second time under its address,
// which is the folder's.
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

// install stores the complete version, or nothing. The check at the end is for a
// cache that another version has deleted meanwhile, as it became active.
async function install() {
  try {
    await store(HELD);
    if ((await missing()).length > 0) throw new Error('the cache was emptied while it was filled');
    // An earlier version stored under types that browsers refuse can't offer this one.
    for (const key of await versions()) await mend(await caches.open(key));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

// route tells a browser that has static routes to read these files from the cache by
// itself, so that opening the page does not wait for this worker to start. A file
// that is no longer there comes from the network, as in answer.
async function route(event) {
  const plain = (path) => path.replace(/[*+?:(){}\\]/g, '\\$&'); // nothing in it is a pattern
  try {
    await event.addRoutes(HELD.map((name) => ({
      condition: { urlPattern: { pathname: plain(new URL(name, SCOPE).pathname), search: '' }, requestMethod: 'GET' },
      source: { cacheName: CACHE },
    })));
  } catch {
    // the worker answers every request itself
  }
}

// activate deletes the other versions, and takes over pages that were opened before
// there was a worker, as they can lose the network too.
async function activate() {
  for (const key of await versions()) {
    if (key !== CACHE) await caches.delete(key);
  }
  await self.clients.claim();
}

// versions returns the names of the caches of all versions at this path.
async function versions() {
  return (await caches.keys()).filter((key) => key.startsWith(PREFIX) && /^[0-9a-f]+$/.test(key.slice(PREFIX.length)));
}

// hold reports whether every file is in the cache, after fetching those that a
// browser short of space has dropped.
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

// mend gives the files in a cache the types they should have. Earlier workers kept
// the types that the host sent. The bytes were checked when they were stored.
async function mend(cache) {
  await Promise.all((await cache.keys()).map(async (request) => {
    const kept = await cache.match(request);
    const type = typeOf(request.url);
    if (!kept || !type || kept.headers.get('Content-Type') === type) return;
    await cache.put(request, new Response(await kept.blob(), { headers: { 'Content-Type': type } }));
  }));
}

// store fetches files, and stores them once all of them have arrived and been
// checked.
async function store(names) {
  const responses = await Promise.all(names.map(fetchRight));
  const cache = await caches.open(CACHE);
  await Promise.all(names.map((name, i) => cache.put(address(name), responses[i])));
}

// fetchRight fetches a file and checks it. The page has just loaded most of the files
// with a hash in their name, so the browser's own copy will do; if that is bad, the
// network is asked. Pages have no hash in their name, so a copy of one may be of
// another version.
async function fetchRight(held) {
  const name = held === FOLDER ? 'index.html' : held;
  if (name.endsWith('.html')) return fetchChecked(name, 'no-store');
  return fetchChecked(name, 'default').catch(() => fetchChecked(name, 'reload'));
}

// The types of files by their ending. A host may send a wrong type, which browsers
// refuse to run; if it were stored, mending the host would not help.
const TYPES = {
  html: 'text/html; charset=utf-8', js: 'text/javascript; charset=utf-8', css: 'text/css; charset=utf-8',
  wasm: 'application/wasm', svg: 'image/svg+xml', png: 'image/png', webmanifest: 'application/manifest+json',
  txt: 'text/plain; charset=utf-8', json: 'application/json',
};

// typeOf returns the type for an address. An address that ends in a slash is the
// folder's, which is a page.
function typeOf(url) {
  const name = url.split('/').pop();
  return TYPES[name === '' ? 'html' : name.split('.').pop()];
}

// How long a file may take before its download counts as stalled.
const STALLED_MS = 5 * 60_000;

// fetchChecked fetches a file and checks it against its hash. It returns a new
// response, as one that was redirected, such as from table.html to table, can't
// answer a navigation.
async function fetchChecked(name, cache) {
  const signal = AbortSignal.timeout ? AbortSignal.timeout(STALLED_MS) : undefined;
  const response = await fetch(address(name), { cache, integrity: RELEASE.files[name], signal });
  if (!response.ok) throw new Error(`${name}: status ${response.status}`);
  const headers = { 'Content-Type': typeOf(name) || response.headers.get('Content-Type') || '' };
  return new Response(await response.blob(), { headers });
}

// answer returns a file of this version. If the browser has dropped it, it comes from
// the network: the same file or none, as its name has its hash; only a page may be
// newer, and that asks for newer files.
async function answer(name, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(address(name))) || fetch(request);
}

// fileFor returns the name of the file that a request is for; undefined: it is not one
// of this version. A page is found whatever its query, index.html also under the
// folder's address, and each page also without its ending, which some hosts drop.
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
