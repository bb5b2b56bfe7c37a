import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { DIST, openBrowser, serve } from "./open.mjs";

const profile = mkdtempSync(join(tmpdir(), "noonplug-offline-"));
afterAll(() => rmSync(profile, { recursive: true, force: true }));

/** Until the service worker has kept everything and speaks for the page. */
const kept = () => navigator.serviceWorker.ready.then(() => navigator.serviceWorker.controller !== null);

test("after the first load everything works with the server gone, from an empty phone to the first answer", async () => {
  const first = await serve(DIST);
  let opened = await openBrowser({ profile });
  try {
    await opened.page.goto(first.origin);
    await opened.page.waitForFunction(kept, undefined, { timeout: 30_000 });
    expect(opened.complaints).toEqual([]);
  } finally {
    await opened.close();
    await first.close();
  }
  // The server is stopped for good: page emulation would not reach what the service worker fetches itself.
  opened = await openBrowser({ profile });
  const { page, complaints } = opened;
  try {
    await page.goto(`${first.origin}/?five-taps`);
    for (const name of ["van", "50", "45"]) await page.getByRole("button", { name, exact: true }).click();
    await page.getByRole("button", { name: "2", exact: true }).click();
    await page.getByRole("button", { name: "%", exact: true }).click();
    await page.getByRole("button", { name: /See the day/ }).click();
    await page.waitForSelector("svg.strip");
    expect(await page.locator(".verdict b").first().textContent()).toMatch(/Enough|Tight|Short/);
    for (const place of ["My vehicle", "Today"]) {
      await page.getByRole("link", { name: place }).click();
      await page.waitForSelector(`.nav a[aria-current]:has-text("${place}")`);
    }
    await page.reload();
    await page.waitForSelector("svg.strip");
    expect(complaints).toEqual([]);
  } finally {
    await opened.close();
  }
});

test("taps made on the first visit stay when the network drops after the first screen", async () => {
  const server = await serve(DIST);
  const { page, close } = await openBrowser();
  try {
    await page.clock.install();
    await page.goto(`${server.origin}/?five-taps`);
    for (const name of ["van", "50", "45"]) await page.getByRole("button", { name, exact: true }).click();
    await server.close();
    await page.clock.runFor(60_000); // everything that is fetched beside is asked for now
    await page.evaluate(() => navigator.serviceWorker.register("/sw.js").catch(() => null)); // the app's own was refused before
    await page.clock.resume();
    expect(await page.locator(".ask.answered").count()).toBe(3);
    expect(await page.getByRole("alert").count()).toBe(0);
    await page.getByRole("button", { name: "2", exact: true }).click();
    expect(await page.locator(".ask.answered").count()).toBe(4);
  } finally {
    await close();
  }
});
