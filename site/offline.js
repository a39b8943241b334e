// Registers the offline worker and keeps its state on the document.
//
// <html data-offline>:
//   unsupported  this browser, or a page opened this way, has no worker
//   installing   the worker is fetching its files
//   ready        the worker holds every file, and the page's program has started
//                from them: the page opens without a network
//   failed       the page would not open without a network
//   update       a newer version is waiting; this one still works
//   stuck        the user agreed to the newer version, and it did not take over
//
// Each change fires 'offline-state' on the document. To switch to the newer
// version, dispatch 'apply-update' on the document: the page reloads once.
'use strict';

(() => {
  // How long the worker waits for the page's own downloads, which it would
  // only slow down.
  const PATIENCE_MS = 8000;

  // How long a newer version may take to take over.
  const STUCK_MS = 15_000;

  const root = document.documentElement;
  const container = navigator.serviceWorker;
  const script = new URL('sw.js', document.baseURI).href;
  let registration;
  let replaced = false; // another tab switched to the newer version
  let agreed = false; // the user wants the newer version
  let asked = 0;

  // reached resolves once the document's state passes a test.
  function reached(test) {
    return new Promise((resolve) => {
      const look = () => {
        if (!test(root.dataset)) return;
        watch.disconnect();
        resolve();
      };
      const watch = new MutationObserver(look);
      watch.observe(root, { attributeFilter: ['data-state', 'data-ended'] });
      look();
    });
  }

  // started resolves to whether the page's program started. A version whose program
  // fails at the start is not worth keeping: nothing of it would open.
  const alive = (data) => data.state !== 'still';
  const started = reached((data) => alive(data) || 'ended' in data).then(() => alive(root.dataset));

  // controlled reports whether this site's own worker answers for the page. The
  // worker of a site at a shorter path of the same host may do so instead.
  function controlled() {
    return Boolean(container.controller) && container.controller.scriptURL === script;
  }

  function say(state) {
    if (root.dataset.offline === state) return;
    root.dataset.offline = state;
    document.dispatchEvent(new CustomEvent('offline-state', { detail: { state } }));
  }

  // ask sends a message to a worker and waits for its answer.
  function ask(worker, message) {
    return new Promise((resolve) => {
      const channel = new MessageChannel();
      channel.port1.onmessage = (event) => resolve(event.data);
      worker.postMessage(message, [channel.port2]);
    });
  }

  // settle updates the state. If it is called again before the worker has answered,
  // only the last call counts.
  async function settle() {
    const turn = ++asked;
    const { installing, waiting, active } = registration;
    if (replaced || (waiting && active)) return say('update');
    if (!active) return say(installing || waiting ? 'installing' : 'failed');
    const { whole } = await ask(active, { type: 'hold' });
    const opens = whole && await started;
    if (turn !== asked) return;
    say(opens ? 'ready' : 'failed');
  }

  function follow(worker) {
    if (worker) worker.addEventListener('statechange', settle);
  }

  async function register() {
    if (!controlled()) say('installing');
    try {
      registration = await container.register(script, { updateViaCache: 'none' });
    } catch {
      return say('failed');
    }
    registration.addEventListener('updatefound', () => {
      follow(registration.installing);
      settle();
    });
    follow(registration.installing);
    follow(registration.waiting);
    settle();
  }

  // start registers the worker: at once if one answers for the page already;
  // otherwise once the page's program has started, and the page has everything else
  // that it needs or has had its time.
  async function start() {
    if (controlled()) return register();
    const patience = new Promise((resolve) => { setTimeout(resolve, PATIENCE_MS); });
    if (!(await started)) return say('failed');
    await Promise.race([reached((data) => data.state === 'board'), patience]);
    return register();
  }

  if (!container || !window.isSecureContext || window.location.protocol === 'file:') {
    say('unsupported');
    return;
  }

  let before = controlled();
  container.addEventListener('controllerchange', () => {
    if (agreed) return window.location.reload();
    replaced = before;
    before = controlled();
    if (registration) settle();
  });

  document.addEventListener('apply-update', () => {
    if (!['update', 'stuck'].includes(root.dataset.offline) || agreed) return;
    agreed = true;
    say('update'); // so that it can be stuck a second time
    if (replaced || !registration.waiting) return window.location.reload();
    registration.waiting.postMessage({ type: 'apply' });
    setTimeout(() => {
      agreed = false;
      say('stuck');
    }, STUCK_MS);
  });

  // Browsers may drop files while a page sleeps.
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden && registration) settle();
  });
  // What failed without a network may work with one.
  window.addEventListener('online', async () => {
    if (root.dataset.offline !== 'failed') return;
    if (registration && registration.active) settle();
    else if (await started) register();
  });

  if (document.readyState === 'complete') start();
  else window.addEventListener('load', start);
})();
