import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { DIST, openBrowser, serve } from "./open.mjs";

// The built app in the invented yard: money is covered until asked for, closes in sums a reader can add up, and prints on one page.
type Opened = Awaited<ReturnType<typeof openBrowser>>;
let site: Awaited<ReturnType<typeof serve>>;
let phone: Opened;

const goTo = async ({ page }: Opened, path: string): Promise<void> => {
  await page.evaluate((to) => {
    history.pushState({ depth: 1 }, "", `/?${to}`);
    dispatchEvent(new PopStateEvent("popstate"));
  }, path);
  await page.waitForFunction((name) => location.search.startsWith(`?${name}`), path.split("/")[0] ?? "");
  await page.waitForTimeout(300);
};
const show = async ({ page }: Opened): Promise<void> => {
  await page.locator(".empty .key.main").click();
  await page.waitForSelector(".m-lines, .m-head, .m-panel, .m-report, .m-fields, .m-ways");
};
/** Goes to a screen and takes the cover off where it lies on. */
const openAt = async (of: Opened, path: string): Promise<void> => {
  await goTo(of, path);
  if (await of.page.locator(".empty .key.main").count()) await show(of);
};
const textOf = async ({ page }: Opened): Promise<string> =>
  ((await page.locator("main").textContent()) ?? "").replaceAll("\u2063", "").replaceAll("\u00a0", " ");
/** What a printed amount says, in coins. */
const coins = (text: string): number => Math.round(Number(text.replace("−", "-").replace(/[^\d.-]/g, "")) * 100);

beforeAll(async () => {
  site = await serve(DIST);
  phone = await openBrowser({});
  await phone.page.goto(`${site.origin}/?start`);
  await phone.page.locator(".ways.first .key").last().click();
  await phone.page.waitForFunction(() => location.search.includes("vehicles"), null, { timeout: 30_000 });
});
afterAll(async () => {
  await phone?.close();
  await site?.close();
});

describe("money of an invented yard", () => {
  test("is covered when its place opens, shows on a tap, and covers itself when one leaves", async () => {
    await goTo(phone, "money");
    expect(await textOf(phone)).not.toMatch(/KES|\d/);
    await show(phone);
    expect(await textOf(phone)).toMatch(/KES/);
    await goTo(phone, "vehicles");
    await goTo(phone, "money");
    expect(await textOf(phone)).not.toMatch(/KES|\d/);
    await show(phone);
  });

  test("yesterday beside today, both lines, each with its low and high", async () => {
    await openAt(phone, "money/quay-02");
    const rows = await phone.page.locator(".m-two tbody tr").allTextContents();
    expect(rows.length).toBe(4);
    for (const row of rows.slice(2)) expect(row).toMatch(/to/);
  });

  test("the month's parts add up to its last line, and so do the days, to the last coin", async () => {
    await openAt(phone, "money-month/quay-02");
    const cells = await phone.page.locator(".m-table").first().locator("tbody td").allTextContents();
    const sum = await phone.page.locator(".m-table").first().locator("tfoot td").textContent();
    expect(cells.map(coins).reduce((total, each) => total + each, 0)).toBe(coins(sum ?? ""));
    expect(cells.length).toBeGreaterThan(3);
  });

  test("a picture is drawn, and its library fetched, only when somebody asks", async () => {
    await openAt(phone, "payback/quay-02");
    const fetched = () =>
      phone.page.evaluate(() =>
        performance.getEntriesByType("resource").some(({ name }) => name.includes("/assets/chart-")),
      );
    expect(await fetched()).toBe(false);
    await phone.page.getByRole("button", { name: "Draw it" }).click();
    await phone.page.waitForSelector("canvas");
    await phone.page.waitForTimeout(500);
    expect(await fetched()).toBe(true);
    expect(await phone.page.locator(".m-figure canvas").getAttribute("aria-label")).toContain("paid in");
  });

  test("the report prints on one page of A4, the invented yard says what it is", async () => {
    await openAt(phone, "report/quay-02");
    await phone.page.waitForSelector(".m-report");
    expect(await textOf(phone)).toContain("made up");
    const pdf = (await phone.page.pdf({ format: "A4" })).toString("latin1");
    expect(pdf.match(/\/Type\s*\/Page\b/g)?.length).toBe(1);
  });

  test("a new price holds from its day: the days before stand as they stood", async () => {
    await openAt(phone, "money/quay-02");
    const before = await phone.page.locator(".m-two tbody td").first().textContent();
    await openAt(phone, "money-figures/quay-02");
    await phone.page.locator(".m-fields .key", { hasText: "Price of fuel" }).click();
    for (let i = 0; i < 8; i++) await phone.page.keyboard.press("Backspace");
    await phone.page.keyboard.type("999");
    await phone.page.locator(".pad-ends .main").click();
    await phone.page.waitForFunction(() => document.body.textContent?.includes("999 KES"));
    await openAt(phone, "money/quay-02");
    expect(await phone.page.locator(".m-two tbody td").first().textContent()).toBe(before);
  });

  test("a driver's line is put right by a second line; the first one stays to be seen", async () => {
    await openAt(phone, "money-account/quay-02");
    const { page } = phone;
    const typeAmount = async (text: string) => {
      await page.waitForSelector("dialog[open] .pad-keys");
      await page.keyboard.type(text);
      await page.locator(".pad-ends .main").click();
    };
    await page.locator("main .key.main").click();
    await page.locator(".pad input").fill("A");
    await page.locator(".pad-ends .main").click();
    await page.locator(".pad-list .key", { hasText: "rent" }).click();
    await typeAmount("350");
    await page.getByRole("button", { name: "Put it right" }).click();
    await typeAmount("300");
    await page.waitForSelector(".m-was");
    expect(await textOf(phone)).toMatch(/A owes KES 300[\s\S]*was KES 350/);
  });

  test("a table is brought in: what it does not tell is asked, what cannot be read is named, days already there stay", async () => {
    await openAt(phone, "money-month/all");
    const { page } = phone;
    const table = "date;vehicle;km;gridKwh\n01/02/2026;02;41,5;3,1\n02/02/2026;02;40,0;3,0\n03/02/2026;99;1;1\n";
    await page
      .locator('.m-bring input[type="file"]')
      .setInputFiles({ name: "days.csv", mimeType: "text/csv", buffer: Buffer.from(table) });
    await page.getByRole("button", { name: "day", exact: true }).click();
    await page.waitForSelector(".m-problems[role=status]");
    expect(await textOf(phone)).toMatch(/2 days come in[\s\S]*1 line left out[\s\S]*line 4: vehicle not known/);
    await page.getByRole("button", { name: "Take them in" }).click();
    await page.waitForSelector(".m-problems[role=status]", { state: "detached" });
    await openAt(phone, "money-month/quay-02/2026-02");
    await page.waitForSelector(".m-table");
    expect(await textOf(phone)).toContain("1 Feb");
  });

  test.each([
    "money",
    "money/quay-02",
    "money-month/quay-02",
    "payback/quay-02",
    "report/quay-02",
    "money-figures/quay-02",
  ])("%s: keys of 48 px and more, no text below 14 px, nothing past the edge, no fault found by axe", async (path) => {
    await openAt(phone, path);
    const { page } = phone;
    const found = await page.evaluate(() => {
      const shown = (element: Element) => element.getClientRects().length > 0;
      const small = [...document.querySelectorAll("main .key, main .ib")]
        .filter(shown)
        .map((key) => key.getBoundingClientRect())
        .filter(({ width, height }) => width < 48 || height < 48).length;
      const tiny = [...document.querySelectorAll("main *")]
        .filter((element) => shown(element) && element.childElementCount === 0 && element.textContent?.trim())
        .filter((element) => Number.parseFloat(getComputedStyle(element).fontSize) < 14).length;
      const main = document.querySelector("main");
      return { small, tiny, past: (main?.scrollWidth ?? 0) - (main?.clientWidth ?? 0) };
    });
    expect(found).toEqual({ small: 0, tiny: 0, past: 0 });
    await page.evaluate(readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8"));
    const faults = await page.evaluate(async () => {
      const axe = (
        globalThis as unknown as {
          axe: { run: (where: unknown) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
        }
      ).axe;
      const { violations } = await axe.run({ include: [["main"]] });
      return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 120)}`);
    });
    expect(faults).toEqual([]);
  });

  test("in other hands the place is away, and its screens say why", async () => {
    await goTo(phone, "phone");
    await phone.page.getByRole("button", { name: "other hands" }).click();
    expect(await phone.page.locator(".nav a").allTextContents()).not.toContain("Money");
    await goTo(phone, "money/quay-02");
    expect(await textOf(phone)).not.toMatch(/KES/);
    expect(await phone.page.locator(".empty .key.main").count()).toBe(0);
  });

  test("in other hands nothing else tells the money: not the night, not the yard, and no file leaves the phone", async () => {
    const { page } = phone;
    await goTo(phone, "tonight");
    await page.waitForFunction(() => (document.querySelector("main")?.textContent ?? "").length > 40, null, {
      timeout: 60_000,
    });
    expect(await textOf(phone)).not.toMatch(/KES/);
    await goTo(phone, "yard");
    expect(await textOf(phone)).not.toMatch(/KES|Prices/);
    await goTo(phone, "yard/quay/prices");
    expect(await textOf(phone)).not.toMatch(/KES/);
    await goTo(phone, "phone");
    await page.waitForSelector(".about", { timeout: 30_000 });
    expect(await page.locator('input[type="file"]').count()).toBe(0);
    expect(await textOf(phone)).not.toMatch(/A copy of everything|A fleet file|Remove everything/);
    await phone.page.getByRole("button", { name: "my hands" }).click();
    expect(await phone.page.locator(".nav a").allTextContents()).toContain("Money");
  }, 240_000);

  test("nothing was complained of", () => expect(phone.complaints).toEqual([]));
});
