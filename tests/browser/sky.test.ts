import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { glance, PLAIN, step } from "./glance.js";
import { DIST, openBrowser, serve } from "./open.mjs";
import { setting, settled, startDemo } from "./visits.mjs";

let server: Awaited<ReturnType<typeof serve>>;
let opened: Awaited<ReturnType<typeof openBrowser>>;
let page: Page;

beforeAll(async () => {
  server = await serve(DIST);
  opened = await openBrowser({ zone: "Africa/Nairobi" });
  page = opened.page;
  await startDemo(page, server.origin);
});
afterAll(async () => {
  expect(opened?.complaints).toEqual([]);
  await opened?.close();
  await server?.close();
});

const press = (name: string) => page.getByRole("button", { name, exact: true }).click();
const group = (name: string) => page.getByRole("group", { name, exact: true });
const sunKm = async (): Promise<number> => {
  await settled(page);
  const label = (await page.locator(".preview-strip svg").getAttribute("aria-label")) ?? "";
  return Number(/\+(\d+) km$/.exec(label)?.[1]);
};
const used = () => page.locator(".used").textContent();

describe("the sky", () => {
  test.each(["en", "hi", "ur", "es"])("can be read, pressed and heard in %s, by night", async (language) => {
    await setting(page, { language, look: "night", textSize: language === "es" ? 4 : 1 });
    await page.goto(`${server.origin}/?sky`);
    await glance(page);
  });

  test("a dark day brings fewer km than a bright one, and says that it was said", async () => {
    await setting(page, PLAIN);
    await page.goto(`${server.origin}/?sky`);
    await press("Tomorrow");
    await group("The whole day").getByRole("button", { name: "bright" }).click();
    await page.getByText("You said: bright all day.").waitFor();
    const bright = await sunKm();
    await group("The whole day").getByRole("button", { name: "dark" }).click();
    await page.getByText("You said: dark all day.").waitFor();
    const dark = await sunKm();
    expect(bright).toBeGreaterThan(0);
    expect(dark).toBeLessThan(0.7 * bright);
  });

  test("three parts and single hours refine it, and the light of an hour follows its cover", async () => {
    await group("Morning").getByRole("button", { name: "bright" }).click();
    await page.getByText("You said: bright, dark, then dark.").waitFor();
    const tall = async () => Number(await page.locator(".hour-keys rect").nth(1).getAttribute("height"));
    const before = await tall();
    await page.getByRole("button", { name: "8: all covered", exact: true }).first().click();
    await page.locator(".hour-keys .key").first().click();
    await page.getByText("You gave it hour by hour.").waitFor();
    expect(await page.locator(".hour-keys .key").first().getAttribute("aria-label")).toContain("all covered");
    expect(await tall()).toBeLessThan(before);
    await glance(page);
  });

  test("what was said is there after a reload, and can be forgotten", async () => {
    await page.reload();
    await page.getByText("You gave it hour by hour.").waitFor();
    await press("Forget what was typed");
    await page.getByText("The month's usual counts again.").waitFor();
    expect(await used()).toMatch(/Nobody said\. Used: the month's usual for this place\. Of \d\d days in/);
  });

  test("a night warmer than the day is refused in words, and nothing typed is lost", async () => {
    await page.locator(".field").filter({ hasText: "Warmest" }).getByRole("button").click();
    await page.waitForSelector("dialog[open]");
    await page.keyboard.type("28");
    await page.keyboard.press("Enter");
    await page.locator(".field").filter({ hasText: "Warmest" }).getByText("28").waitFor();
    await page.locator(".field").filter({ hasText: "Coldest" }).getByRole("button").click();
    await page.waitForSelector("dialog[open]");
    await page.keyboard.type("35");
    await page.keyboard.press("Enter");
    expect(await page.getByRole("alert").textContent()).toContain("The night is warmer than the day");
    expect(await page.locator(".pad output").textContent()).toBe("35");
    await page.keyboard.press("Escape");
  });

  test("wet roads warn once, where it is typed", async () => {
    await step(page, "sky");
    await group("Roads").getByRole("button", { name: "wet" }).click();
    await page.getByText("Deep water stops motors. Dry the plug before it goes in.").waitFor();
    expect(await used()).toContain("Nobody said."); // of wet roads no sky follows
  });
});
