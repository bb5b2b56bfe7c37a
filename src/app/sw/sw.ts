export {};

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: { url: string; revision: string | null }[] };
const files = self.__WB_MANIFEST; // put in by the build; must stand here exactly once

/** All of the app is kept on the phone, with the languages that are spoken on it: nothing else is ever fetched later. */
const KEPT = "noonplug";
const ALWAYS_SPOKEN = "en";
const absolute = (path: string) => new URL(path, self.location.origin).href;
// A file without a hash in its name is kept under its revision, so that a new one does not replace the old one too early.
const keyOf = new Map(
  files.map(({ url, revision }) => [absolute(url), absolute(revision ? `${url}?rev=${revision}` : url)]),
);
/** Where the spoken languages are written down; no file of the app has this name. */
const SPOKEN_AT = absolute("/spoken-languages");
const languageOf = (url: string): string | undefined => /\/words-(\w\w)-[^/]+\.js$/.exec(url)?.[1];

self.addEventListener("install", (event) => event.waitUntil(fill()));
self.addEventListener("activate", (event) => event.waitUntil(dropOld().then(() => self.clients.claim())));
self.addEventListener("message", (event) => {
  if (event.data === "agree") void self.skipWaiting();
  const spoken = (event.data as { readonly speak?: unknown } | null)?.speak;
  if (typeof spoken === "string") event.waitUntil(speak(spoken));
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  const key = keyOf.get(request.mode === "navigate" ? absolute("/index.html") : url.href);
  if (key) event.respondWith(answer(request, key));
});

async function spokenIn(cache: Cache): Promise<Set<string>> {
  const written = await (await cache.match(SPOKEN_AT))?.text();
  return new Set([ALWAYS_SPOKEN, ...(written ?? "").split(" ")]);
}

/** A language chosen on this phone: its words are kept from now on, in this version and the next ones. */
async function speak(language: string): Promise<void> {
  const cache = await caches.open(KEPT);
  const spoken = await spokenIn(cache);
  if (spoken.has(language)) return;
  await cache.put(SPOKEN_AT, new Response([...spoken, language].join(" ")));
  await fill();
}

/** Goes on where a broken installation stopped: files already here are not fetched again. */
async function fill(): Promise<void> {
  const cache = await caches.open(KEPT);
  const have = new Set((await cache.keys()).map((request) => request.url));
  const spoken = await spokenIn(cache);
  const wanted = (url: string): boolean => spoken.has(languageOf(url) ?? ALWAYS_SPOKEN);
  const missing = [...keyOf].filter(([url, key]) => wanted(url) && !have.has(key));
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
  const current = new Set([...keyOf.values(), SPOKEN_AT]);
  const old = (await cache.keys()).filter((request) => !current.has(request.url));
  await Promise.all(old.map((request) => cache.delete(request)));
}

async function answer(request: Request, key: string): Promise<Response> {
  const cache = await caches.open(KEPT);
  return (await cache.match(key)) ?? fetch(request); // words of a language nobody has spoken here yet
}
