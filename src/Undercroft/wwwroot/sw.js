// Keeps the page of the round without signal, and nothing else: what it shows comes from the network while there is one.
const KEPT = 'undercroft-round-1';
const mine = url => url.origin === self.location.origin && (url.pathname === '/round/away' || url.pathname === '/round/stops.json' || url.pathname.startsWith('/assets/'));

self.addEventListener('install', event => event.waitUntil(self.skipWaiting()));
self.addEventListener('activate', event => event.waitUntil(self.clients.claim()));
self.addEventListener('fetch', event => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || !mine(url)) return;
  event.respondWith((async () => {
    const kept = await caches.open(KEPT);
    try {
      const answer = await fetch(event.request);
      // Only the page itself is kept, never a sign-in that stands in for it.
      if (answer.ok && !answer.redirected) await kept.put(event.request, answer.clone());
      return answer;
    } catch (gone) {
      const known = await kept.match(event.request, { ignoreSearch: url.pathname.startsWith('/round/'), ignoreVary: true });
      if (known) return known;
      throw gone;
    }
  })());
});
