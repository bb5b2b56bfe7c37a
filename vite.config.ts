import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Plugin } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { defineConfig } from "vitest/config";

const here = import.meta.dirname;
const dist = join(here, "dist");
const { version } = JSON.parse(readFileSync(join(here, "package.json"), "utf8")) as { version: string };

/**
 * The first screen asks the worker at once and speaks one language: both are fetched beside the main script, not after it. Which language
 * that is, only the phone knows: `look.js` reads the names of the files here.
 */
const preloadFirst: Plugin = {
  name: "preload-first",
  transformIndexHtml: {
    order: "post",
    handler: (html, { bundle }) => {
      const named = (what: RegExp) => Object.keys(bundle ?? {}).filter((file) => what.test(file));
      const words = named(/words-\w\w-first-[^/]+\.js$/).join(" ");
      // A page with a policy of its own is not looked ahead in: a script that the parser waits for stands last, when all else is on its way.
      const look = '<script src="/look.js"></script>';
      const preload = named(/day-worker-[^/]+\.js$/).map((file) => `<link rel="modulepreload" href="/${file}">`);
      return html
        .replace(look, "")
        .replace("</head>", `${look}</head>`)
        .replace("<title>", `${preload.join("")}<title>`)
        .replace("<html ", `<html data-words="${words}" `);
    },
  },
};

/** The words of a language: what the first screens say in one file, what the first visit shows in one, the rest in another. */
const wordsOf = (id: string): string | null => {
  const found = /src\/app\/words\/(?:(\w+)\/)?(en|hi|bn|ur|sw|es)\.ts$/.exec(id);
  if (!found) return null;
  const [, group, language] = found;
  if (group === undefined) return `words-${language}-first`;
  const isStart = group === "start" || group === "day" || group === "list";
  return `words-${language}-${isStart ? "start" : "more"}`;
};

/** Parts that packs of screens share, a file each: the later a group stands, the later it takes what is left. */
const SHARED: readonly (readonly [name: string, test: RegExp])[] = [
  ["chart", /node_modules\/(chart\.js|@kurkle)\/|\/chart-?draw\.tsx?$/i],
  ["store", /node_modules\/idb\/|src\/store\//],
  ["zod", /node_modules\/zod\//],
  ["sun", /src\/calc\/(sun|roof)\//],
  ["road", /src\/calc\/(road|battery)\//],
  [
    "map",
    /src\/(records\/map\/(battery|roof|road|place|day|shift|weather|start|sizing|panel-volts)|calc\/(day\/(steps|input)|sizing\/(month-sun|sky-chain)))\.ts/,
  ],
  ["plan", /src\/calc\/day\//],
  [
    "records",
    /src\/records\/(check|check-fleet|fleet-file|read|kinds?|fields|day|round|vehicle|yard|night|money|fleet|ids)\.ts/,
  ],
  ["track", /src\/records\/import\/(xml-scan|track-\w+|gpx|earth|encoding|to-round)\.ts/],
  ["make", /src\/(app\/first\/|records\/(new-\w+|places|towns|guesses|roof-faces|kit-weights)\.ts)/],
  ["sizing", /src\/(calc\/sizing\/|records\/map\/variants|work\/sizing-call)/],
  [
    "pads",
    /src\/(work\/long-call|calc\/money\/currency\.ts|app\/words\/([a-z]+|money\/amount)\.ts|app\/((?!learning|forecasts)[a-z-]+\.ts|parts\/(?!Kit)|screens\/(money\/Lent|edit\/\w*Pad|edit\/FieldRow|FieldRow|write\/\w+|DayTop|day-context|today-\w+|gauge-values|use-turn|round-km|month-letters|Moves|KitLinks|ListKeys|problem-words)))/,
  ],
  ["money", /src\/(app\/screens\/money|calc\/money)\//],
  ["night", /src\/app\/screens\/tonight\//],
  ["kit", /src\/app\/(screens\/(Kit|kit-|Compare)|parts\/Kit)/],
  ["edit", /src\/app\/screens\/(edit|sheet|rounds|sky|yard)\//],
  [
    "log",
    /src\/(app\/(learning|forecasts)\.ts|app\/screens\/(log|care)\/|calc\/learn\/(check|score)|records\/map\/(lived|care)\.ts|work\/ask-learn)/,
  ],
];

/** Tables that a bundler keeps unless told that making them does nothing else: the moon of the sun library, guesses of vehicle classes. */
const rolldownOptions = { treeshake: { manualPureFunctions: ["Int32Array", "guess"] } };

export default defineConfig({
  define: { __VERSION__: JSON.stringify(version) },
  root: join(here, "src"),
  publicDir: join(here, "public"),
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } }, // the same bundle as with a preset, without Babel
  build: {
    outDir: dist,
    emptyOutDir: true,
    target: "es2022",
    // A list of what each later part needs would be carried by the first file; only the very first visit is worth one.
    modulePreload: {
      polyfill: false,
      resolveDependencies: (file, needed) =>
        /\/Start-/.test(file) ? needed : needed.filter((one) => one.endsWith(".css")),
    },
    assetsInlineLimit: 0,
    rolldownOptions: {
      ...rolldownOptions,
      output: {
        codeSplitting: {
          groups: [
            // What the first screen needs comes in one file: it packs better than a dozen, and asks the network once.
            { name: "first", test: /src\/app\/(App|main)\.tsx$|rolldown\/runtime/, priority: 200 },
            // Words say their language in their name: the service worker keeps those that are spoken, and not the rest.
            { name: wordsOf, priority: 100 },
            ...SHARED.map(([name, test], i) => ({ name, test, priority: 90 - i })),
          ],
        },
      },
    },
  },
  worker: { format: "es", rolldownOptions },
  plugins: [
    preloadFirst,
    VitePWA({
      strategies: "injectManifest",
      srcDir: "app/sw",
      filename: "sw.ts",
      outDir: dist,
      injectRegister: false,
      includeManifestIcons: false,
      injectManifest: {
        rollupFormat: "iife",
        // json and woff2 are left out of the offline set by default, without a word
        globPatterns: ["**/*.{js,css,html,svg,json,woff2,txt,webmanifest}"], // the PNG icons are for the home screen, which asks for them itself
        globIgnores: ["sw.js"],
      },
      manifest: {
        name: "Noonplug",
        short_name: "Noonplug",
        description: "Will this charge and tomorrow's sun get the vehicle home, or when does it need the plug?",
        start_url: "/",
        scope: "/",
        display: "standalone",
        background_color: "#FFFDF6",
        theme_color: "#12191D",
        icons: [
          { src: "/icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" },
          { src: "/icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "/icon-512.png", sizes: "512x512", type: "image/png" },
          { src: "/icon-maskable-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
        ],
      },
    }),
  ],
  test: {
    root: here,
    projects: [
      {
        extends: true,
        test: {
          name: "unit",
          include: ["tests/**/*.test.{ts,tsx}"],
          exclude: ["tests/browser/**", "node_modules/**"],
          environment: "node",
          testTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: {
          name: "browser",
          include: ["tests/browser/**/*.test.ts"],
          environment: "node",
          testTimeout: 90_000,
          hookTimeout: 60_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
