import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { expect, test } from "vitest";
import { LANGUAGES } from "../../src/app/words/format.js";
import { DIST } from "./open.mjs";

// Budgets: the project's own, after measurements of first loads over slow networks on a slowed-down processor.
const FIRST_SCREEN_KB = 60;
const EVERYTHING_KB = 300;
const KB = 1024;
/** Kept soon after the start, or when first opened: the same as in the service worker. */
const LATER =
  /^assets\/(advice|answer-input|BringProblems|chart|day-calls|demo|kit|learned|log|money|night-calls|night-worker|plan|read-track|size-kit|sizing|sizing-worker|track|track-worker|TrackAsk|what-if)-[^/]+\.(js|css)$/;

const assets = () => readdirSync(join(DIST, "assets"));
const read = (path: string): string => readFileSync(join(DIST, path), "utf8");
const gz = (path: string): number => gzipSync(readFileSync(join(DIST, path)), { level: 9 }).length;

function only(pattern: RegExp): string {
  const found = assets().filter((file) => pattern.test(file));
  expect(found, `files like ${pattern}`).toHaveLength(1);
  return `assets/${found[0]}`;
}

/** A script and everything it imports at once, by the text of the built files. */
function withImports(path: string, seen = new Set<string>()): Set<string> {
  if (seen.has(path)) return seen;
  expect(existsSync(join(DIST, path)), path).toBe(true);
  seen.add(path);
  for (const [, name] of read(path).matchAll(/(?:from|import)\s*"\.\/([^"]+\.js)"/g))
    withImports(`assets/${name}`, seen);
  return seen;
}

/** The service worker tells the words of a language by the same name. */
const languageOf = (file: string): string | undefined => /(?:^|\/)words-(\w\w)-[^/]+\.js$/.exec(file)?.[1];

/** The chunks with the core words, one a language, known by a word that only they have. */
function coreWords(): string[] {
  const tables = assets().filter((file) => languageOf(file));
  return tables.filter((file) => read(`assets/${file}`).includes("ribbonNow")).map((file) => `assets/${file}`);
}

test("the first screen with its worker and one language", () => {
  const html = read("index.html");
  const named = [...html.matchAll(/(?:src|href)="\/((?:assets\/)?[^"]+\.(?:js|css))"/g)].map(
    (found) => found[1] as string,
  );
  const entry = [...html.matchAll(/<script type="module"[^>]*src="\/([^"]+)"/g)].map((found) => found[1] as string);
  expect(entry.length).toBeGreaterThanOrEqual(1);
  const scripts = entry.flatMap((path) => [...withImports(path)]);
  const files = new Set(["index.html", ...named, ...scripts, only(/^day-worker-.*\.js$/)]);
  const languages = coreWords();
  expect(languages).toHaveLength(LANGUAGES.length);
  const largestLanguage = Math.max(...languages.map(gz));
  const sizes = [...files].map((path) => [path, gz(path)] as const);
  const total = sizes.reduce((sum, [, size]) => sum + size, largestLanguage);
  const list = sizes.map(([path, size]) => `${(size / KB).toFixed(1)} ${path}`).join("\n");
  console.log(
    `First screen ${(total / KB).toFixed(1)} kB gz with the largest language ${(largestLanguage / KB).toFixed(1)}\n${list}`,
  );
  expect(sizes.some(([path]) => path.endsWith(".css"))).toBe(true);
  expect(total).toBeLessThanOrEqual(FIRST_SCREEN_KB * KB);
});

test("all that is kept for use without network", () => {
  const worker = read("sw.js");
  const listed = [...worker.matchAll(/"?url"?:\s*[`"']([^`"']+)[`"']/g)].map((found) => found[1] as string);
  for (const must of ["index.html", "look.js", "icon.svg", "manifest.webmanifest", "fonts/figures-overpass-700.woff2"])
    expect(listed).toContain(must);
  expect(listed).toEqual(expect.arrayContaining(assets().map((file) => `assets/${file}`)));
  for (const path of listed) expect(existsSync(join(DIST, path)), path).toBe(true);
  const sum = (paths: readonly string[]): number => paths.reduce((total, path) => total + gz(path), 0);
  const later = listed.filter((path) => LATER.test(path));
  const app = sum(listed.filter((path) => !languageOf(path) && !LATER.test(path)));
  const spoken = LANGUAGES.map((language) =>
    sum(listed.filter((path) => languageOf(path) === language && !LATER.test(path))),
  );
  const [english = 0, ...others] = spoken;
  const total = app + english + Math.max(...others); // the language of the phone is kept, and English
  const kb = (bytes: number): string => (bytes / KB).toFixed(1);
  console.log(
    `Kept at installation ${kb(total)} kB gz (later ${kb(sum(later))}): app ${kb(app)}, ${LANGUAGES.map((l, i) => `${l} ${kb(spoken[i] ?? 0)}`)}`,
  );
  expect(Math.min(...spoken)).toBeGreaterThan(0);
  expect(later.length).toBeGreaterThanOrEqual(3);
  expect(total).toBeLessThanOrEqual(EVERYTHING_KB * KB);
});

test("nothing that is kept at installation leans on what is kept later", () => {
  const scripts = assets().filter((file) => file.endsWith(".js") && !LATER.test(`assets/${file}`));
  const leans = scripts.flatMap((file) =>
    [...read(`assets/${file}`).matchAll(/(?:from|import)\s*["'`]\.\/([^"'`]+\.js)["'`]/g)]
      .map(([, other]) => `assets/${other}`)
      .filter((other) => LATER.test(other))
      .map((other) => `${file} -> ${other}`),
  );
  expect(scripts.length).toBeGreaterThan(20);
  expect(leans).toEqual([]);
});
