/** A short name for one build: FNV-1a over the names and sizes of its files (Fowler, Noll, Vo 1991; from memory). */
export function versionOf(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return hash.toString(16).padStart(8, '0');
}

/**
 * The service worker as text. It keeps every file of one build, and those of the build before for pages that still run it, answers navigation from the kept page, leaves
 * `/api` to the network, and takes over from an older one only when the page asks (never by itself in the middle of
 * a make).
 */
export function serviceWorkerSource(input: { readonly version: string; readonly files: readonly string[] }): string {
  return `const KEPT = 'vatside-${input.version}';
const FILES = ${JSON.stringify(input.files)};
self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(KEPT).then((kept) => kept.addAll(FILES)));
});
self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter((name) => name.startsWith('vatside-') && name !== KEPT).slice(0, -1).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});
self.addEventListener('message', (event) => {
  if (event.data === 'take-over') self.skipWaiting();
});
self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== location.origin || url.pathname.startsWith('/api/')) return;
  const wanted = request.mode === 'navigate' ? '/' : url.pathname;
  event.respondWith(
    caches.open(KEPT).then((kept) => kept.match(wanted))
      .then((found) => found ?? (wanted.startsWith('/assets/') ? caches.match(wanted) : undefined))
      .then((found) => found ?? fetch(request)),
  );
});
`;
}
