import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { glance, PLAIN, step, unfold } from "./glance.js";
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
const part = (nth: number) => page.locator(".parts > li").nth(nth);
const openPart = (nth: number) => part(nth).locator(".part-row").click();
const answer = () => page.locator(".preview-words b").textContent();
/** The answer once it differs from one that was there before. */
async function answerAfter(before: string | null): Promise<string | null> {
  await page.waitForFunction((before) => document.querySelector(".preview-words b")?.textContent !== before, before, {
    timeout: 15_000,
  });
  await settled(page);
  return answer();
}
const kmIn = (text: string | null): number => Number(/(\d+)/.exec(text ?? "")?.[1]);
const group = (name: string) => page.getByRole("group", { name, exact: true });

describe("the rounds editor", () => {
  test.each(["en", "bn", "ur", "sw"])(
    "can be read, pressed and heard with every part open, in %s",
    async (language) => {
      await setting(page, { language, digits: language === "bn" ? "own" : null });
      await page.goto(`${server.origin}/?round/hotels`);
      for (const nth of [0, 1]) {
        await openPart(nth);
        await unfold(page);
        await glance(page);
      }
      await setting(page, { language: "en", digits: null });
    },
  );

  test("with letters twice as large nothing is cut off", async () => {
    await setting(page, { ...PLAIN, textSize: 4, look: "night" });
    await page.goto(`${server.origin}/?round/hotels`);
    await openPart(0);
    await glance(page);
  });

  test("a longer way moves the answer at once, and putting it back brings the old one", async () => {
    await setting(page, PLAIN);
    await page.goto(`${server.origin}/?round/hotels`);
    await page.locator(".preview-strip svg").waitFor();
    const before = await answer();
    await openPart(0);
    await group("Length").getByRole("button", { name: "12", exact: true }).click();
    const after = await answerAfter(before);
    expect(after).not.toBe(before);
    if (/Enough/.test(after ?? "")) expect(kmIn(after)).toBeLessThan(kmIn(before));
    await press("As it was");
    expect(await answerAfter(after)).toBe(before);
  });

  test("a changed round waits through a reload until it is kept", async () => {
    await step(page, "round/town");
    const first = (await page.locator(".parts > li").count()) > 0;
    expect(first).toBe(false); // no such round in the demo: the screen says so
    await step(page, "round/short");
    await openPart(0);
    await group("Length").getByRole("button", { name: "8", exact: true }).click();
    await page.reload();
    await page.locator(".parts > li").first().waitFor();
    expect(await part(0).textContent()).toContain("8 km");
    await step(page, "rounds");
    expect(await page.getByText("not kept yet").count()).toBe(1);
    await step(page, "round/short");
    await press("Keep round");
    await page.getByText("Round kept.").waitFor();
    await page.reload();
    await page.locator(".parts > li").first().waitFor();
    expect(await part(0).textContent()).toContain("8 km");
    expect(await page.getByText("nothing changed").count()).toBe(1);
  });

  test("parts move by keys, and one taken away comes back", async () => {
    await step(page, "round/flowers");
    const names = () => page.locator(".parts .what b").allTextContents();
    const before = await names();
    await openPart(1);
    await press("Earlier");
    expect((await names())[0]).toBe(before[1]);
    await press("Later");
    expect(await names()).toEqual(before);
    await press("Take away");
    expect(await names()).toHaveLength(before.length - 1);
    await press("Undo");
    expect(await names()).toEqual(before);
  });

  test("a slope that does not go with the load is told at its way", async () => {
    await step(page, "round/flowers");
    await openPart(0);
    await unfold(page);
    await group("Climbs")
      .getByRole("button", { name: /Another number/ })
      .click();
    await page.waitForSelector("dialog[open]");
    await page.keyboard.type("2400");
    await page.keyboard.press("Enter");
    await part(0).locator(".note").first().waitFor();
    expect(await part(0).locator(".note").first().textContent()).toMatch(/this slope not with this load|gear \d/);
    await glance(page);
    await press("As it was");
  });

  test("a figure out of range stays in the pad with its reason", async () => {
    await step(page, "rounds");
    await step(page, "round/flowers");
    await openPart(0);
    await group("Length")
      .getByRole("button", { name: /Another number/ })
      .click();
    await page.waitForSelector("dialog[open]");
    await page.keyboard.type("900");
    await page.keyboard.press("Enter");
    expect(await page.getByRole("alert").textContent()).toContain("At most 300");
    await page.keyboard.press("Escape");
    await page.waitForSelector("dialog", { state: "detached" });
  });

  test("a new round is three taps, and is removed and given back", async () => {
    await step(page, "round/new");
    await page.locator(".parts > li").nth(2).waitFor();
    await press("Keep round");
    await page.getByText("Round kept.").waitFor();
    await press("Remove this round");
    await page.getByText(/is removed/).waitFor();
    await press("Undo");
    await step(page, "rounds");
    expect(await page.getByText(/^Round \d$/).count()).toBe(1);
  });

  test("a round without a way is not kept, and says what it wants", async () => {
    await step(page, "round/short");
    for (let left = await page.locator(".parts > li.leg").count(); left > 0; left--) {
      await page.locator(".parts > li.leg .part-row").first().click();
      await press("Take away");
    }
    await press("Keep round");
    await page.getByText("A round needs a way. Add one.").waitFor();
    await press("As it was");
  });
});
