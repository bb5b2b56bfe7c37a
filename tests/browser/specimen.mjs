import { join } from "node:path";
import { build } from "vite";
import { ROOT } from "./open.mjs";

export const SPECIMEN = join(ROOT, "node_modules", ".cache", "specimen");

/** Builds the page of parts, drawn from invented days, apart from the app; it is never shipped. */
export async function buildSpecimen() {
  await build({
    configFile: false,
    logLevel: "warn",
    root: join(ROOT, "tests", "browser", "specimen"),
    publicDir: join(ROOT, "public"),
    oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
    build: {
      outDir: SPECIMEN,
      emptyOutDir: true,
      target: "es2022",
      modulePreload: { polyfill: false },
      assetsInlineLimit: 0,
    },
  });
  return SPECIMEN;
}
