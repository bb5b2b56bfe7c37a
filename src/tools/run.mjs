// npm run plan|night|replay|... : bundles src/cli/NAME.ts once (kept while the sources are unchanged) and runs it.
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { at, ensurePackages, stop } from "./ready.mjs";

const [name = "", ...args] = process.argv.slice(2);
ensurePackages();
const entry = name === "bench" ? at("tests/bench/main.ts") : at(`src/cli/${name}.ts`);
if (!existsSync(entry)) stop(`There is no command "${name}". Commands: plan, night, replay, schema, demo, bench.`);

const sources = ["src", "tests/bench", "package-lock.json"].flatMap(function list(path) {
  const full = at(path);
  if (!existsSync(full)) return [];
  if (!statSync(full).isDirectory()) return [full];
  return readdirSync(full, { recursive: true, encoding: "utf8" })
    .filter((file) => /\.(ts|json)$/.test(file))
    .map((file) => join(full, file));
});
const mark = createHash("sha256");
for (const file of sources.sort()) mark.update(file).update(readFileSync(file));
const folder = at(`node_modules/.cache/noonplug/${mark.digest("hex").slice(0, 16)}`);
const bundle = join(folder, `${name}.mjs`);
if (!existsSync(bundle)) {
  mkdirSync(folder, { recursive: true });
  const { build } = await import("vite");
  await build({
    configFile: false,
    logLevel: "warn",
    root: at("."),
    publicDir: false,
    build: {
      ssr: entry,
      outDir: folder,
      emptyOutDir: false,
      target: "node20",
      rolldownOptions: { output: { entryFileNames: `${name}.mjs`, codeSplitting: false } },
    },
    ssr: { noExternal: true, external: ["highs"] },
  });
}
process.argv.splice(2, process.argv.length - 2, ...args);
await import(pathToFileURL(bundle).href);
