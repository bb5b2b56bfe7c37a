// Makes a fresh clone ready: packages and, for the browser tests, a browser. Built-ins only: this runs before anything is installed.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
export const at = (path) => join(ROOT, path);

/** Ends the process with one sentence a person can act on. */
export function stop(sentence) {
  console.error(`\n${sentence}`);
  process.exit(1);
}

/** Runs a program in the project folder and shows its output; returns its exit code. */
export function run(program, args, options = {}) {
  const done = spawnSync(program, args, { cwd: ROOT, stdio: "inherit", ...options });
  return done.status ?? 1;
}

const onWindows = process.platform === "win32";

export function ensurePackages() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  if (major < 20 || (major === 20 && minor < 19)) stop(`Node 20.19 or newer is needed; this is ${process.version}.`);
  const stamp = at("node_modules/.ready");
  const lock = readFileSync(at("package-lock.json"));
  const want = createHash("sha256")
    .update(lock)
    .update(process.version)
    .update(process.platform + process.arch)
    .digest("hex");
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === want) return;
  const npm = process.env.npm_execpath; // set when started through npm, and then the very npm the person uses
  const args = ["ci", "--no-audit", "--no-fund", "--loglevel=error"];
  const quiet = { stdio: ["inherit", 2, 2] }; // standard output belongs to the command that was asked for
  const code = npm
    ? run(process.execPath, [npm, ...args], quiet)
    : run(onWindows ? "npm.cmd" : "npm", args, { shell: onWindows, ...quiet });
  if (code !== 0) stop("npm ci failed. Is the network up? The first run needs it; later runs do not.");
  writeFileSync(stamp, want); // last, so an interrupted install leaves no stamp
}

const BROWSERS = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
];

const findBrowser = () => [process.env.CHROMIUM, ...BROWSERS].find((path) => path && existsSync(path));

/** Path of a Chromium; installs Debian's package when none is found and we may. */
export function ensureBrowser() {
  const found = findBrowser();
  if (found) return found;
  const mayInstall = !process.env.CHROMIUM && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get");
  if (mayInstall) installBrowser();
  return (
    findBrowser() ??
    stop(
      "The browser tests need Chromium or Chrome. Install it (Debian: sudo apt-get install chromium) or set CHROMIUM=/path/to/it.",
    )
  );
}

function installBrowser() {
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  const wait = ["-o", "DPkg::Lock::Timeout=300", "-qq"]; // another apt may hold the lock on a fresh machine
  if (run("apt-get", [...wait, "update"], { env }) !== 0)
    stop("apt-get update failed; install Chromium by hand and run again.");
  const packages = ["chromium", "fonts-noto-core"];
  if (run("apt-get", [...wait, "install", "-y", "--no-install-recommends", ...packages], { env }) !== 0)
    stop("apt-get could not install chromium.");
}
