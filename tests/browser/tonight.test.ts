import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { cutOff, smallText } from "./look-over.mjs";
import { DIST, openBrowser, serve } from "./open.mjs";
import { setting, settled, startDemo, visit } from "./visits.mjs";

let server: Awaited<ReturnType<typeof serve>>;
let opened: Awaited<ReturnType<typeof openBrowser>>;

beforeAll(async () => {
  server = await serve(DIST);
  opened = await openBrowser({ zone: "Africa/Nairobi" });
  // Eight in the evening at the demo's yard: the clock of the machine must not decide what is to be seen.
  await opened.page.clock.install({ time: new Date("2027-02-10T17:00:00Z") });
  await startDemo(opened.page, server.origin);
});
afterAll(async () => {
  await opened?.close();
  await server?.close();
});

const tonight = async () => {
  await visit(opened.page, server.origin, "tonight");
  await opened.page.waitForSelector(".board", { timeout: 30_000 });
  await settled(opened.page);
};
const download = async (name: string) => {
  const [file] = await Promise.all([
    opened.page.waitForEvent("download"),
    opened.page.getByRole("button", { name, exact: true }).click(),
  ]);
  return readFileSync(await file.path(), "utf8");
};

describe("the night at 360 x 640", () => {
  test("headline, next hands, the board and its keys are on the glass without scrolling", async () => {
    await tonight();
    const { page } = opened;
    expect(await page.locator(".night-head b").textContent()).toMatch(/Short:|Nobody short/);
    const bottom = (selector: string) =>
      page
        .locator(selector)
        .first()
        .evaluate((element) => element.getBoundingClientRect().bottom);
    expect(await bottom(".board")).toBeLessThan(580);
    expect(await page.locator(".board g text.f").count()).toBeGreaterThan(5);
    expect(await page.getByText("dear").count()).toBeGreaterThan(0);
  });

  test("the plan is followed, kept, and Done strokes out the next walk", async () => {
    await tonight();
    const { page } = opened;
    await page.getByRole("button", { name: "Follow this plan" }).click();
    await page.getByText(/Plan 1 is followed/).waitFor();
    const walk = page.locator(".hands.many .hand").first();
    const before = await walk.textContent();
    await walk.getByRole("button", { name: "Done" }).click();
    await page.waitForFunction((text) => document.querySelector(".hands.many .hand")?.textContent !== text, before);
    await tonight();
    expect(await page.locator(".hands.many .hand").first().textContent()).not.toBe(before);
    expect(await page.getByText(/is followed/).count()).toBeGreaterThan(0);
  });

  test("calendar and table hold every plug-in of the board", async () => {
    await tonight();
    const { page } = opened;
    const blocks = await page.locator(".board g > path:first-child").count();
    const calendar = await download("Calendar");
    expect(calendar.match(/BEGIN:VEVENT\r\n/g)?.length ?? 0).toBe(blocks);
    expect(calendar).toMatch(/DTSTART:\d{8}T\d{6}Z\r\n/);
    const table = await download("Table");
    expect(table.split("\r\n").length).toBeGreaterThan(blocks + 1);
  });

  test("supply lost for four hours: who is short then, who is first back on, and the plan takes it", async () => {
    const { page } = opened;
    await visit(page, server.origin, "supply");
    await page.getByRole("button", { name: "4 h" }).click();
    await page.getByRole("button", { name: "Make this the plan" }).click({ timeout: 30_000 });
    await page.locator(".board").getByText("no supply").waitFor({ state: "attached" });
  });

  test("a dead charger leaves its vehicle without a slot", async () => {
    const { page } = opened;
    await tonight();
    const plate = await page.locator(".board g g text.f").first().textContent();
    await page.goto(`${server.origin}/?night-vehicle/quay-${plate}`);
    await page.waitForSelector(".night-slot");
    await page.getByRole("button", { name: "Its charger is dead" }).click();
    await page.waitForSelector(".board");
    await settled(page);
    const numbers = await page.locator(".board g g text.f").allTextContents();
    expect(numbers).not.toContain(plate);
  });

  test.each(["hi", "bn", "ur", "sw", "es"])("in %s nothing is cut off or too small", async (language) => {
    await setting(opened.page, { language, digits: language === "hi" || language === "bn" ? "own" : null });
    await tonight();
    expect(await opened.page.evaluate(cutOff)).toEqual([]);
    expect(await opened.page.evaluate(smallText)).toEqual([]);
    await setting(opened.page, { language: "en", digits: null });
  });
});

test("the slate prints on one A4 page in landscape, with backgrounds left out", async () => {
  const { page } = opened;
  await visit(page, server.origin, "slate");
  await page.waitForSelector(".slate");
  const paper = (await page.pdf({ preferCSSPageSize: true, printBackground: false })).toString("latin1");
  const sheets = await page.locator(".slate").count();
  expect(paper.match(/\/Type\s*\/Page[^s]/g)).toHaveLength(sheets);
  const [, wide = 0, high = 0] = paper.match(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/)?.map(Number) ?? [];
  expect(wide).toBeCloseTo(842, -1); // 297 x 210 mm in points (ISO 216)
  expect(high).toBeCloseTo(595, -1);
  // Digits of 10 mm and more: 297 mm less two margins of 8 mm carry the drawing's width.
  const mm = await page
    .locator(".slate .board g g text.f")
    .first()
    .evaluate((text) => {
      const { width } = (text.closest(".slate") as SVGSVGElement).viewBox.baseVal;
      return (Number(text.getAttribute("font-size")) * 0.72 * 281) / width;
    });
  expect(mm).toBeGreaterThan(10);
});
