export {};

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: { url: string; revision: string | null }[] };
const files = self.__WB_MANIFEST; // put in by the build; must stand here exactly once

/** All of the app is kept on the phone: nothing is fetched later, so nothing is missing without network. */
const KEPT = "noonplug";
const absolute = (path: string) => new URL(path, self.location.origin).href;
// A file without a hash in its name is kept under its revision, so that a new one does not replace the old one too early.
const keyOf = new Map(
  files.map(({ url, revision }) => [absolute(url), absolute(revision ? `${url}?rev=${revision}` : url)]),
);

self.addEventListener("install", (event) => event.waitUntil(fill()));
self.addEventListener("activate", (event) => event.waitUntil(dropOld().then(() => self.clients.claim())));
self.addEventListener("message", (event) => {
  if (event.data === "agree") void self.skipWaiting();
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  const key = keyOf.get(request.mode === "navigate" ? absolute("/index.html") : url.href);
  if (key) event.respondWith(answer(request, key));
});

/** Goes on where a broken installation stopped: files already here are not fetched again. */
async function fill(): Promise<void> {
  const cache = await caches.open(KEPT);
  const have = new Set((await cache.keys()).map((request) => request.url));
  const missing = [...keyOf].filter(([, key]) => !have.has(key));
  await Promise.all(
    missing.map(async ([url, key]) => {
      const got = await fetch(url, { cache: url === key ? "default" : "reload" });
      if (!got.ok || got.redirected) throw new Error(`${url}: ${got.status}`);
      await cache.put(key, got);
    }),
  );
}

async function dropOld(): Promise<void> {
  const cache = await caches.open(KEPT);
  const current = new Set(keyOf.values());
  const old = (await cache.keys()).filter((request) => !current.has(request.url));
  await Promise.all(old.map((request) => cache.delete(request)));
}

async function answer(request: Request, key: string): Promise<Response> {
  const cache = await caches.open(KEPT);
  return (await cache.match(key)) ?? fetch(request);
}
