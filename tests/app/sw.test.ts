import { beforeEach, expect, test, vi } from "vitest";

type Listener = (event: object) => void;
const listeners = new Map<string, Listener>();
const ORIGIN = "https://app.test";
const FILES = [
  "index.html",
  "assets/words-en-first-11111111.js",
  "assets/words-sw-first-22222222.js",
  "assets/chart-33333333.js",
];

/** A cache that can be full, and a network that can be gone. */
const held = new Map<string, string>();
let full = false;
let online = true;
const cache = {
  match: async (key: string) => (held.has(key) ? new Response(held.get(key)) : undefined),
  keys: async () => [...held.keys()].map((url) => ({ url })),
  put: async (key: string, response: Response) => {
    if (full) throw new DOMException("no room", "QuotaExceededError");
    held.set(key, await response.text());
  },
};
vi.stubGlobal("self", {
  __WB_MANIFEST: FILES.map((url) => ({ url, revision: null })),
  location: { origin: ORIGIN },
  addEventListener: (type: string, listener: Listener) => void listeners.set(type, listener),
});
vi.stubGlobal("caches", { open: async () => cache });
vi.stubGlobal("fetch", async (asked: string | { url: string }) => {
  if (!online) throw new TypeError("Failed to fetch");
  return new Response(`text of ${typeof asked === "string" ? asked : asked.url}`);
});
const worker = "../../src/app/sw/sw.js"; // has a project of its own, with the types of a service worker
await import(worker);

async function tell(type: string, more: object): Promise<unknown> {
  const waits: Promise<unknown>[] = [];
  let answer: Promise<unknown> | null = null;
  const event = {
    waitUntil: (wait: Promise<unknown>) => void waits.push(wait),
    respondWith: (promised: Promise<unknown>) => {
      answer = promised;
    },
  };
  listeners.get(type)?.({ ...event, ...more });
  const answered = await answer;
  await Promise.all(waits);
  return answered;
}
const keptFiles = () => [...held.keys()].map((url) => url.replace(`${ORIGIN}/assets/`, "")).sort();
const swahili = "words-sw-first-22222222.js";

beforeEach(() => {
  held.clear();
  full = false;
  online = true;
});

test("a later part can be used though there is no room to keep it", async () => {
  full = true;
  const got = await tell("fetch", {
    request: { method: "GET", mode: "cors", url: `${ORIGIN}/assets/chart-33333333.js` },
  });
  expect(await (got as Response).text()).toContain("chart");
  full = false;
  await tell("fetch", { request: { method: "GET", mode: "cors", url: `${ORIGIN}/assets/chart-33333333.js` } });
  expect(keptFiles()).toEqual(["chart-33333333.js"]);
});

test("a language whose words could not be fetched is fetched when it is spoken again", async () => {
  await tell("install", {});
  expect(keptFiles()).not.toContain(swahili);
  online = false;
  await tell("message", { data: { speak: "sw" } });
  expect(keptFiles()).not.toContain(swahili);
  online = true;
  await tell("message", { data: { speak: "sw" } });
  expect(keptFiles()).toContain(swahili);
  held.delete(`${ORIGIN}/assets/${swahili}`);
  await tell("message", { data: { speak: "sw" } });
  expect(keptFiles()).toContain(swahili);
});
