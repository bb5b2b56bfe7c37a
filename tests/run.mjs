// npm test: everything that must hold, in order, stopping at the first failure. `node tests/run.mjs NAME` runs one step alone.
import { existsSync } from "node:fs";
import { at, ensureBrowser, ensurePackages, run, stop } from "../src/tools/ready.mjs";

ensurePackages();
const only = process.argv[2];
const node = process.execPath;
const bin = (path) => at(`node_modules/${path}`);
const vitest = (...args) => [node, [bin("vitest/vitest.mjs"), "run", ...args]];
const steps = [
  ["types", node, [bin("typescript/bin/tsc"), "-b"]],
  ["lint", node, [bin("@biomejs/biome/bin/biome"), "ci", "."]],
  ["build", node, [bin("vite/bin/vite.js"), "build", "--logLevel", "warn"]],
  ["unit", ...vitest("--project", "unit", ...process.argv.slice(3))],
  ["browser", ...vitest("--project", "browser", ...process.argv.slice(3))],
];
const extra = [["shots", node, [at("tests/browser/shots.mjs"), ...process.argv.slice(3)]]];
const wanted = only ? [...steps, ...extra].filter(([name]) => name === only) : steps;
if (wanted.length === 0)
  stop(`There is no step "${only}". Steps: ${[...steps, ...extra].map(([name]) => name).join(", ")}.`);
const needsBrowser = wanted.some(([name]) => name === "browser" || name === "shots");
const env = { ...process.env, ...(needsBrowser ? { CHROMIUM: ensureBrowser() } : {}) };
for (const [name, program, args] of wanted) {
  if (!existsSync(args[0])) stop(`The step "${name}" has no program at ${args[0]}.`);
  const began = Date.now();
  console.log(`\n== ${name}`);
  if (run(program, args, { env }) !== 0) stop(`"${name}" failed. Run it alone: node tests/run.mjs ${name}`);
  console.log(`== ${name}: ${((Date.now() - began) / 1000).toFixed(1)} s`);
}
