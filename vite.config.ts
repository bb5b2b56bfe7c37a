import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Plugin } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { defineConfig } from "vitest/config";

const here = import.meta.dirname;
const dist = join(here, "dist");
const { version } = JSON.parse(readFileSync(join(here, "package.json"), "utf8")) as { version: string };

/** The first screen asks the worker at once: fetch it beside the main script, not after it. */
const preloadWorker: Plugin = {
  name: "preload-worker",
  transformIndexHtml: {
    order: "post",
    handler: (_html, { bundle }) =>
      Object.keys(bundle ?? {})
        .filter((file) => /day-worker-[^/]+\.js$/.test(file))
        .map((file) => ({ tag: "link", attrs: { rel: "modulepreload", href: `/${file}` }, injectTo: "head" as const })),
  },
};

/** The sun library also holds the moon, in tables that a bundler keeps unless told that making a list of numbers does nothing else. */
const rolldownOptions = { treeshake: { manualPureFunctions: ["Int32Array"] } };

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
        /\/(Start|words-\w\w)-/.test(file) ? needed : needed.filter((one) => one.endsWith(".css")),
    },
    assetsInlineLimit: 0,
    rolldownOptions: {
      ...rolldownOptions,
      // What the first screen needs comes in one file: it packs better than a dozen, and asks the network once.
      output: {
        codeSplitting: { groups: [{ name: "first", test: /src\/app\/(App|main)\.tsx$/ }] },
        // Words say their language in their name: the service worker keeps those that are spoken, and not the rest.
        chunkFileNames: ({ facadeModuleId }) => {
          const language = /\/app\/words\/(?:[a-z-]+\/)?(en|hi|bn|ur|sw|es)\.ts$/.exec(facadeModuleId ?? "")?.[1];
          return language ? `assets/words-${language}-[hash].js` : "assets/[name]-[hash].js";
        },
      },
    },
  },
  worker: { format: "es", rolldownOptions },
  plugins: [
    preloadWorker,
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
