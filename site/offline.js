// Registers the offline worker and says on the document how things stand.
//
// <html data-offline>:
//   unsupported  this browser, or this way of opening the page, has no worker
//   installing   the worker is fetching its files
//   ready        the worker holds every file: the page opens without a network
//   failed       it does not
//   update       a newer version waits; this one still works as it is
//   stuck        it was to be taken, and did not come
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
  let replaced = false; // another tab took the newer version
  let agreed = false;
  let asked = 0;

  // controlled tells whether a worker of this very site answers for the page:
  // one of a site around it, at a shorter path of the same host, may do so too.
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

  // settle says how things stand now. An answer that comes after a newer
  // question is dropped.
  async function settle() {
    const turn = ++asked;
    const { installing, waiting, active } = registration;
    if (replaced || (waiting && active)) return say('update');
    if (!active) return say(installing || waiting ? 'installing' : 'failed');
    const { whole } = await ask(active, { type: 'hold' });
    if (turn !== asked) return;
    say(whole ? 'ready' : 'failed');
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

  // start registers at once where a worker already answers, else when the page
  // has everything it needs itself, or has had its time.
  function start() {
    if (controlled()) return register();
    let begun = false;
    const begin = () => {
      if (begun) return;
      begun = true;
      watch.disconnect();
      register();
    };
    const watch = new MutationObserver(() => root.dataset.state === 'board' && begin());
    watch.observe(root, { attributeFilter: ['data-state'] });
    if (root.dataset.state === 'board') begin();
    setTimeout(begin, PATIENCE_MS);
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
    if (replaced || !registration.waiting) return window.location.reload();
    registration.waiting.postMessage({ type: 'apply' });
    setTimeout(() => {
      agreed = false;
      say('stuck');
    }, STUCK_MS);
  });

  // Browsers drop files while a page sleeps, and networks come back.
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden && registration) settle();
  });
  window.addEventListener('online', () => {
    if (root.dataset.offline !== 'failed') return;
    if (registration && registration.active) settle();
    else register();
  });

  if (document.readyState === 'complete') start();
  else window.addEventListener('load', start);
})();
