// Keeps the site's files on the phone: all of them once it was opened, so that it works without a network.

const EDITION = "{{edition}}";
const FILES = {{files}};

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(EDITION).then((kept) => kept.addAll(FILES)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  const forgetOthers = (names) => Promise.all(names.filter((name) => name !== EDITION).map((name) => caches.delete(name)));
  event.waitUntil(caches.keys().then(forgetOthers).then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET") return;
  const found = caches.open(EDITION).then((kept) => kept.match(event.request, { ignoreSearch: true }));
  event.respondWith(found.then((answer) => answer ?? fetch(event.request)));
});
