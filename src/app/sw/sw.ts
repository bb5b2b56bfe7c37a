export {};

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: { url: string; revision: string | null }[] };
const files = self.__WB_MANIFEST; // put in by the build; must stand here exactly once

/** All that a day and a night need is kept on the phone at installation, with the languages that are spoken on it. */
const KEPT = "noonplug";
/** Kept soon after, or when first opened, so that a small data pack suffices to begin: charts, tracks, the demo, what a refused file says, the workers of nights and kits. */
const LATER =
  /\/assets\/(advice|answer-input|BringProblems|chart|day-calls|demo|kit|learned|log|money|night-calls|night-worker|plan|read-track|size-kit|sizing|sizing-worker|track|track-worker|TrackAsk|what-if)-[^/]+\.(js|css)$/;
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
  if (typeof spoken === "string") event.waitUntil(speak(spoken).catch(() => undefined)); // at the next start, then
  if (event.data === "keep all") event.waitUntil(fill(true).catch(() => undefined)); // no network: when it is opened, then
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  const key = keyOf.get(request.mode === "navigate" ? absolute("/index.html") : url.href);
  if (key) event.respondWith(answer(event, key));
});

async function spokenIn(cache: Cache): Promise<Set<string>> {
  const written = await (await cache.match(SPOKEN_AT))?.text();
  return new Set([ALWAYS_SPOKEN, ...(written ?? "").split(" ")]);
}

/** A language chosen on this phone: its words are kept from now on, in this version and the next ones. */
async function speak(language: string): Promise<void> {
  await fill(false, language);
  const cache = await caches.open(KEPT);
  const spoken = await spokenIn(cache);
  if (!spoken.has(language)) await cache.put(SPOKEN_AT, new Response([...spoken, language].join(" ")));
}

const withoutHash = (url: string): string => url.replace(/-[\w-]{8}\.(js|css)$/, "");

/**
 * Goes on where a broken installation stopped: files already here are not fetched again. Of the later files those come at once that the
 * version before had here.
 */
async function fill(withLater = false, alsoSpoken = ALWAYS_SPOKEN): Promise<void> {
  const cache = await caches.open(KEPT);
  const have = new Set((await cache.keys()).map((request) => request.url));
  const had = new Set([...have].map(withoutHash));
  const spoken = (await spokenIn(cache)).add(alsoSpoken);
  const wanted = (url: string): boolean =>
    spoken.has(languageOf(url) ?? ALWAYS_SPOKEN) && (withLater || !LATER.test(url) || had.has(withoutHash(url)));
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

async function answer(event: FetchEvent, key: string): Promise<Response> {
  const { request } = event;
  const cache = await caches.open(KEPT);
  const held = await cache.match(key);
  if (held) return held;
  const got = await fetch(request); // a later file, or words of a language nobody has spoken here yet
  const keeps = got.ok && !got.redirected && LATER.test(request.url);
  if (keeps) event.waitUntil(cache.put(key, got.clone()).catch(() => undefined)); // no room: it is used all the same
  return got;
}
