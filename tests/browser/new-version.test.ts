import { appendFileSync, cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { DIST, openBrowser, serve } from "./open.mjs";

const folder = mkdtempSync(join(tmpdir(), "noonplug-dist-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The same app once more with another first page, as the next build would be. */
function release(mark: string): void {
  appendFileSync(join(folder, "index.html"), `<!-- ${mark} -->\n`);
  const worker = readFileSync(join(folder, "sw.js"), "utf8");
  const entries = /\{[^{}]*index\.html[^{}]*\}/; // revision and url, in whichever order the build writes them
  const changed = worker.replace(entries, (entry) =>
    entry.replace(/(revision["']?:\s*[`"'])/, (start) => `${start}${mark}-`),
  );
  expect(changed).not.toBe(worker);
  writeFileSync(join(folder, "sw.js"), changed);
}

test("a new version waits until the person says so, then starts", async () => {
  cpSync(DIST, folder, { recursive: true });
  const server = await serve(folder);
  const { page, close, complaints } = await openBrowser();
  try {
    await page.goto(server.origin);
    await page.waitForFunction(() =>
      navigator.serviceWorker.ready.then(() => navigator.serviceWorker.controller !== null),
    );
    release("second");
    await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
    await page.waitForSelector(".foot-line:has-text('A new version is here')", { timeout: 30_000 });
    const old = await page.evaluate(async () => (await fetch("/index.html", { cache: "no-store" })).text());
    expect(old).not.toContain("<!-- second -->"); // the old version still answers
    await Promise.all([page.waitForEvent("load"), page.getByRole("button", { name: "Start it" }).click()]);
    await page.waitForSelector(".ways.first");
    const fresh = await page.evaluate(async () => (await fetch("/index.html", { cache: "no-store" })).text());
    expect(fresh).toContain("<!-- second -->");
    expect(complaints).toEqual([]);
  } finally {
    await close();
    await server.close();
  }
});
