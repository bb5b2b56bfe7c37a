// Serves the built app and opens it in Chromium. Plain JavaScript, so that the tests and the screenshot command share it.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { appServer, listen } from "../../src/tools/serve.mjs";

export const ROOT = join(import.meta.dirname, "..", "..");
export const DIST = join(ROOT, "dist");

/** Serves a folder on localhost until `close`. @param {string} folder @param {number} [port] 0 takes a free one */
export async function serve(folder, port = 0) {
  const server = appServer(folder);
  const taken = await listen(server, port);
  const close = () =>
    new Promise((done) => {
      server.closeAllConnections();
      server.close(done);
    });
  return { origin: `http://localhost:${taken}`, port: Number(taken), close };
}

// Without these Chromium tries connections of its own.
const QUIET = [
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/**
 * A phone-sized browser with a profile of its own. `complaints` gathers what the page threw or wrote as an error.
 * @param {{ width?: number, height?: number, scale?: number, touch?: boolean, locale?: string, zone?: string, moving?: boolean, profile?: string }} [how]
 */
export async function openBrowser(how = {}) {
  const profile = how.profile ?? mkdtempSync(join(tmpdir(), "noonplug-"));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    headless: true,
    viewport: { width: how.width ?? 360, height: how.height ?? 640 },
    deviceScaleFactor: how.scale ?? 1,
    isMobile: how.touch ?? true,
    hasTouch: how.touch ?? true,
    locale: how.locale ?? "en-GB",
    timezoneId: how.zone ?? "Asia/Kolkata",
    reducedMotion: how.moving ? "no-preference" : "reduce",
    args: [...(process.getuid?.() === 0 ? ["--no-sandbox"] : []), ...QUIET],
  });
  const page = context.pages()[0] ?? (await context.newPage());
  /** @type {string[]} */
  const complaints = [];
  page.on("pageerror", (error) => complaints.push(String(error.stack ?? error)));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  const close = async () => {
    await context.close();
    if (!how.profile) rmSync(profile, { recursive: true, force: true });
  };
  return { context, page, complaints, close };
}
