import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { crowdedTargets, cutOff, lengthen, smallTargets, smallText } from "./look-over.mjs";
import { DIST, openBrowser, serve } from "./open.mjs";
import { screenNames, setting, settled, startDemo, visit } from "./visits.mjs";

type Served = Awaited<ReturnType<typeof serve>>;
type Opened = Awaited<ReturnType<typeof openBrowser>>;

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let server: Served;
let opened: Opened;

beforeAll(async () => {
  server = await serve(DIST);
  opened = await openBrowser();
  await startDemo(opened.page, server.origin);
});
afterAll(async () => {
  await opened?.close();
  await server?.close();
});

/** What axe-core finds by the success criteria of WCAG 2.2, levels A and AA. */
async function axe(): Promise<string[]> {
  await opened.page.evaluate(AXE); // the content security policy refuses script tags
  return opened.page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run: (options: object) => Promise<AxeResult> } };
    const seen = await axe.run({
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
    });
    const found = seen.violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 160)}`));
    // "14 °C" on the key of a value and "14 degrees" for the voice are one name, though axe takes them for two.
    return found.filter((told) => !/^label-content-name-mismatch: <button[^>]* class="key value/.test(told));
  });
}
interface AxeResult {
  readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
}

const NAMES = screenNames();

test("the list of screens is read, and long enough", () => {
  expect(NAMES).toEqual(
    expect.arrayContaining(["today", "start", "five-taps", "vehicles", "phone", "write", "hold-up"]),
  );
  expect(NAMES.length).toBeGreaterThanOrEqual(20);
});

describe.each(NAMES)("screen %s at 360 x 640", (name) => {
  test("opens without a complaint, fits the glass, and can be read and pressed", async () => {
    const { page, complaints } = opened;
    complaints.length = 0;
    await visit(page, server.origin, name);
    expect(complaints).toEqual([]);
    expect(await page.evaluate(cutOff)).toEqual([]);
    expect(await page.evaluate(smallText)).toEqual([]);
    expect(await page.evaluate(smallTargets)).toEqual([]);
    expect(await page.evaluate(crowdedTargets)).toEqual([]);
    expect(await axe()).toEqual([]);
    await page.evaluate(lengthen);
    expect(await page.evaluate(cutOff)).toEqual([]);
  });
});

describe("the verdict screen", () => {
  const check = async () => {
    const { page } = opened;
    await visit(page, server.origin, "today");
    expect(await page.evaluate(cutOff)).toEqual([]);
    expect(await page.evaluate(smallText)).toEqual([]);
  };

  test.each(["hi", "bn", "ur", "sw", "es"])("in %s", async (language) => {
    await setting(opened.page, { language, digits: language === "hi" || language === "bn" ? "own" : null });
    await check();
    expect(await opened.page.evaluate(() => document.documentElement.lang)).toBe(language);
    expect(await opened.page.evaluate(() => document.documentElement.dir || "ltr")).toBe(
      language === "ur" ? "rtl" : "ltr",
    );
    expect(await axe()).toEqual([]);
    await setting(opened.page, { language: "en", digits: null });
  });

  test("with letters twice as large nothing is cut off", async () => {
    await setting(opened.page, { textSize: 4 });
    await check();
    await setting(opened.page, { textSize: 1 });
  });

  test("in the night look", async () => {
    await setting(opened.page, { look: "night" });
    await check();
    expect(await axe()).toEqual([]);
    await setting(opened.page, { look: "day" });
  });

  test("on a glass 320 px wide", async () => {
    await opened.page.setViewportSize({ width: 320, height: 640 });
    await check();
    await opened.page.setViewportSize({ width: 360, height: 640 });
  });

  test("back goes one step, by our key and by the phone's", async () => {
    const { page } = opened;
    await visit(page, server.origin, "today");
    await page.getByRole("link", { name: "Vehicles" }).click();
    await page.getByRole("button", { name: "This phone" }).click();
    await page.getByRole("button", { name: "Back" }).click();
    await page.waitForSelector(".row-key");
    await page.goBack();
    await page.waitForSelector(".verdict");
    await settled(page);
  });
});
