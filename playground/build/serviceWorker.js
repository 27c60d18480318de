// Keeps one whole build of the bench for use without a network. `BUILD` and `FILES` are written in front of this text.
// A page gets its address, its scripts and the rules from one build only: an older build serves its pages until they
// ask for the newer one, and then every page is loaded anew.

const kept = `bench-${BUILD}`;
const here = (file) => new URL(file, self.registration.scope).href;

async function digestOf(response) {
  const bytes = await crypto.subtle.digest('SHA-256', await response.arrayBuffer());
  return Array.from(new Uint8Array(bytes), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Keeps a file only if it is that of this build: a server may be given new files in the middle. */
async function keep(cache, [file, digest]) {
  const response = await fetch(here(file), { cache: 'no-cache' });
  if (!response.ok || (await digestOf(response.clone())) !== digest) {
    throw new Error(`${file} is not that of this build`);
  }
  await cache.put(here(file), response);
}

self.addEventListener('install', (event) => {
  const first = Object.entries(FILES).filter(([, { later }]) => !later);
  event.waitUntil(
    caches
      .open(kept)
      .then((cache) => Promise.all(first.map(([file, { digest }]) => keep(cache, [file, digest])))),
  );
});

self.addEventListener('activate', (event) => {
  const old = (names) => names.filter((name) => name.startsWith('bench-') && name !== kept);
  event.waitUntil(caches.keys().then((names) => Promise.all(old(names).map((name) => caches.delete(name)))));
});

self.addEventListener('message', ({ data }) => {
  if (data === 'take over') void self.skipWaiting();
});

async function answer(file) {
  const cache = await caches.open(kept);
  const known = await cache.match(here(file));
  if (known) return known;
  await keep(cache, [file, FILES[file].digest]);
  return (await cache.match(here(file))) ?? Response.error();
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || !request.url.startsWith(self.registration.scope)) return;
  const path = new URL(request.url).pathname.slice(new URL(self.registration.scope).pathname.length);
  const file = path === '' ? 'index.html' : path;
  if (Object.hasOwn(FILES, file)) event.respondWith(answer(file).catch(() => Response.error()));
});
