import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { PLAIN, step } from "./glance.js";
import { DIST, openBrowser, serve } from "./open.mjs";
import { setting, settled, startDemo } from "./visits.mjs";

let server: Awaited<ReturnType<typeof serve>>;
let opened: Awaited<ReturnType<typeof openBrowser>>;
let page: Page;
const WAIT = { timeout: 30_000 };

beforeAll(async () => {
  server = await serve(DIST);
  opened = await openBrowser({ zone: "Africa/Nairobi" });
  page = opened.page;
  await startDemo(page, server.origin);
  await setting(page, PLAIN);
});
afterAll(async () => {
  expect(opened?.complaints).toEqual([]);
  await opened?.close();
  await server?.close();
});

/** Taps keys so fast that nothing is on disk between them. */
const tapAll = (keys: string) =>
  page.evaluate((keys) => {
    for (const key of document.querySelectorAll<HTMLElement>(keys)) key.click();
  }, keys);

test("three of the four questions of a day, tapped in one go, are all kept", async () => {
  await page.goto(`${server.origin}/?write`);
  await page.locator(".ask").nth(3).waitFor();
  await settled(page);
  await page.getByRole("button", { name: "Another day" }).click();
  await page.locator("dialog input").fill("2026-01-15");
  await page.keyboard.press("Enter");
  await settled(page);
  await tapAll(
    ".ask:nth-of-type(1) .key:first-child, .ask:nth-of-type(2) .key:first-child, .ask:nth-of-type(3) .key:nth-child(2)",
  );
  await page.waitForFunction(() => document.querySelectorAll(".saved .full").length === 3, null, WAIT);
});

test("hours of the sky, painted in one go, are all painted", async () => {
  await step(page, "sky");
  await page.getByRole("button", { name: "all covered", exact: true }).first().click();
  await tapAll(".hour-keys .key");
  await page.getByText("You gave it hour by hour.").waitFor(WAIT);
  await page.waitForFunction(
    () =>
      [...document.querySelectorAll(".hour-keys .key")].every((key) =>
        key.getAttribute("aria-label")?.includes("all covered"),
      ),
    null,
    WAIT,
  );
});
