import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { glance, PLAIN, step, unfold } from "./glance.js";
import { DIST, openBrowser, serve } from "./open.mjs";
import { setting, startDemo } from "./visits.mjs";

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

const YARD = "yard/old-quay";
const press = (name: string | RegExp) => page.getByRole("button", { name, exact: typeof name === "string" }).click();
const field = (name: string) => page.locator(".field").filter({ hasText: name });
async function type(name: string, typed: string): Promise<void> {
  await field(name).getByRole("button").first().click();
  await page.waitForSelector("dialog[open]");
  await page.keyboard.type(typed);
  await page.keyboard.press("Enter");
  await page.waitForSelector("dialog", { state: "detached" });
}
/** Picks an hour in the clock that is open, and goes on. */
async function pickHour(hour: string, then: string): Promise<void> {
  await page.getByRole("group", { name: "Hour", exact: true }).getByRole("button", { name: hour, exact: true }).click();
  await page.locator("dialog[open]").getByRole("button", { name: then, exact: true }).click();
}

const GROUPS = ["place", "sockets", "supply", "prices", "people", "cuts", "weather"];
describe.each(GROUPS)("group %s of the yard", (group) => {
  test.each(["en", "bn", "ur", "es"])("can be read, pressed and heard in %s", async (language) => {
    const textSize = language === "es" ? 4 : 1;
    await setting(page, { language, textSize, look: language === "bn" ? "night" : "day" });
    await page.goto(`${server.origin}/?${YARD}/${group}`);
    const row = page.locator(".part-row").first();
    if ((await row.count()) > 0) await row.click();
    await unfold(page);
    await glance(page);
  });
  afterAll(async () => {
    await setting(page, PLAIN);
    await page.goto(server.origin);
  });
});

describe("what clashes is said at its place", () => {
  test("others that draw more than the limit, with the hour", async () => {
    await step(page, `${YARD}/supply`);
    await press("Set hours");
    await page.waitForSelector("dialog[open]");
    await glance(page);
    await pickHour("18", "Next");
    await pickHour("20", "Keep");
    await page.keyboard.type("30");
    await page.keyboard.press("Enter");
    await page.getByText("At 18:00 the others alone draw 30 kW, above the limit of 8 kW.").waitFor();
    await step(page, YARD);
    await page.locator(".group-row").filter({ hasText: "Supply" }).getByText("look here").waitFor();
  });

  test("a margin that takes all of the limit", async () => {
    await step(page, `${YARD}/supply`);
    await type("Kept free", "9");
    await page.getByText("The margin takes all of the limit").waitFor();
    await press("Undo");
  });

  test("prices that overlap, at the one that loses", async () => {
    await step(page, `${YARD}/prices`);
    const bands = await page.locator(".part").count();
    await press("Add a price");
    await page.locator(".part").nth(bands).waitFor();
    await page.locator(".part.open .field").first().getByRole("button").click();
    await pickHour("19", "Next");
    await pickHour("21", "Keep");
    const note = page.locator(".part").nth(bands).locator(".note");
    await note.waitFor();
    expect(await note.textContent()).toMatch(
      /^It overlaps another price for \d+ min\. The upper one of the list counts\.$/,
    );
    await press("Take this price away");
    await note.waitFor({ state: "detached" });
  });

  test("a clock that no place on earth has is refused by name", async () => {
    await step(page, `${YARD}/place`);
    await field("Clock").getByRole("button").first().click();
    await press("Write");
    await page.locator("input.typed").fill("Mars/Base");
    await page.keyboard.press("Enter");
    await page.getByText("No place on earth has this clock. Choose one from the list.").waitFor();
    expect(await page.locator("input.typed").inputValue()).toBe("Mars/Base");
    await page.keyboard.press("Escape");
  });
});

describe("lists of the yard", () => {
  test("a socket more, changed and taken away, and back again", async () => {
    await step(page, `${YARD}/sockets`);
    const rows = page.locator(".part-row");
    const before = await rows.count();
    await press("Add a socket");
    await rows.nth(before).waitFor();
    await rows.nth(before).click();
    await press("3.7");
    await page.getByText("3.7 kW").waitFor();
    await press("Take this socket away");
    await page.getByText("Socket taken away.").waitFor();
    await press("Undo");
    await rows.nth(before).waitFor();
  });

  test("a cut over midnight, on disk after a reload", async () => {
    await step(page, `${YARD}/cuts`);
    await press("Add a cut");
    await page.locator("dialog[open] .pad-list .key").nth(1).click();
    await pickHour("22", "Next");
    await pickHour("2", "Keep");
    await page.getByText(/22:00 to 02:00 the day after/).waitFor();
    await page.reload();
    await page.getByText(/22:00 to 02:00 the day after/).waitFor();
    await press(/^Take this cut away/);
    await page.getByText(/22:00 to 02:00 the day after/).waitFor({ state: "detached" });
  });

  test("hours awake are typed by two clocks", async () => {
    await step(page, `${YARD}/people`);
    await press("Add hours");
    await pickHour("3", "Next");
    await pickHour("4", "Keep");
    await page.getByRole("button", { name: "03:00 – 04:00", exact: true }).waitFor();
  });

  test("the weather of a month is typed, or taken from the nearest known town", async () => {
    await step(page, `${YARD}/weather`);
    await type("Coldest of a usual day", "19");
    await field("Coldest of a usual day").getByText("19").waitFor();
    expect(await field("Coldest of a usual day").textContent()).not.toContain("a guess");
    await press(/^All months as in/);
    await page.getByText(/^Weather as in/).waitFor();
    expect(await field("Coldest of a usual day").textContent()).toContain("a guess");
    await press("Undo");
  });
});
