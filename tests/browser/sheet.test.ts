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

const ID = "quay-05";
const field = (name: string) => page.locator(".field", { has: page.getByText(name, { exact: true }) });
async function openField(name: string): Promise<void> {
  await field(name).getByRole("button").first().click();
  await page.waitForSelector("dialog[open]");
}
const press = (name: string) => page.getByRole("button", { name, exact: true }).click();
async function typeDigits(digits: string): Promise<void> {
  for (const digit of digits) await page.locator(".pad").getByRole("button", { name: digit, exact: true }).click();
}
async function type(name: string, digits: string): Promise<void> {
  await openField(name);
  await page.keyboard.type(digits);
  await page.keyboard.press("Enter");
  await page.waitForSelector(".pad", { state: "detached" });
}

/** Records on disk that belong to the vehicle and are not deleted. */
const ownRecords = (): Promise<number> =>
  page.evaluate(
    (id) =>
      new Promise((done, fail) => {
        const open = indexedDB.open("noonplug-demo");
        open.onerror = () => fail(open.error);
        open.onsuccess = () => {
          const all = open.result.transaction("records").objectStore("records").getAll();
          all.onsuccess = () => {
            open.result.close();
            const mine = all.result.filter((body) => body.f.vehicleId === id && body.k !== "chainLink");
            done(
              mine.filter((body) => !body.d || Object.values(body.x ?? {}).some((at) => String(at) > body.d)).length,
            );
          };
        };
      }),
    ID,
  );

const GROUPS = ["plate", "body", "drive", "set", "charger", "roof", "extras", "gauge", "usual", "line"];
describe.each(GROUPS)("group %s of the sheet", (group) => {
  test("can be read, pressed and heard", async () => {
    await step(page, `sheet/${ID}/${group}`);
    await unfold(page);
    await glance(page);
  });

  test.each(["hi", "ur", "es"])("and fits the glass in %s, with large letters, in the night look", async (language) => {
    await setting(page, { language, look: "night", textSize: 4 });
    await page.goto(`${server.origin}/?sheet/${ID}/${group}`);
    await glance(page);
  });
  afterAll(async () => {
    await setting(page, PLAIN);
    await page.goto(server.origin);
  });
});

describe("typing a figure", () => {
  test("refuses what cannot be, says why, and keeps what is typed then", async () => {
    await step(page, `sheet/${ID}/body`);
    expect(await field("Empty weight").textContent()).toContain("a guess");
    await openField("Empty weight");
    await glance(page);
    await typeDigits("20");
    await press("Keep");
    expect(await page.getByRole("alert").textContent()).toBe("At least 80 kg. Check the unit and type it again.");
    expect(await page.locator(".pad output").textContent()).toBe("20");
    await press("Rub out");
    await press("Rub out");
    await typeDigits("455");
    await press("Keep");
    await field("Empty weight").getByText("455").waitFor();
    await page.reload();
    await field("Empty weight").getByText("455").waitFor();
    expect(await field("Empty weight").textContent()).toMatch(/455 kg$/);
  });

  test("works from a keyboard alone", async () => {
    await type("Driver", "68");
    await field("Driver").getByText("68").waitFor();
    await openField("Driver");
    await page.keyboard.press("Escape");
    await page.waitForSelector(".pad", { state: "detached" });
    expect(await field("Driver").textContent()).toContain("68");
  });

  test("a full load over the legal one is called by its name", async () => {
    await type("A full load", "620");
    const caution = page.getByRole("note").filter({ hasText: "over the legal load" });
    await caution.waitFor();
    expect(await caution.textContent()).toBe("120 kg over the legal load. It tips and brakes worse.");
    await press("Undo");
    await caution.waitFor({ state: "detached" });
  });

  test("two figures that need each other are held until both are there, through a reload", async () => {
    await step(page, `sheet/${ID}/set`);
    await type("Volts", "24");
    await page.getByText("not kept yet").waitFor();
    expect(await field("Volts").textContent()).toContain("Type the other one too.");
    await page.reload();
    await page.getByText("not kept yet").waitFor();
    await step(page, `sheet/${ID}/drive`);
    await page.locator("details > summary").first().click();
    await type("Controller lets go at", "20");
    await step(page, `sheet/${ID}/set`);
    expect(await page.getByText("not kept yet").count()).toBe(0);
    expect(await field("Volts").textContent()).toContain("24");
  });
});

describe("what follows from the figures", () => {
  test("hills in gears, and a slope that does not go with this load", async () => {
    await step(page, `sheet/${ID}/drive`);
    expect(await page.locator(".hills li").count()).toBe(4);
    expect(await page.locator(".hills li").first().textContent()).toMatch(/gear \d, \d+ km\/h/);
    await type("Motor, for a short while", "400");
    await type("Motor, steady", "300");
    await page.getByText("this slope not with this load").first().waitFor();
    await glance(page);
  });

  test("panels that give too much on a cold morning", async () => {
    await step(page, `sheet/${ID}/roof`);
    await type("It bears at most", "50");
    await type("Panels one behind the other", "2");
    await openField("Open volts of a panel");
    await page.keyboard.type("24.5");
    await page.keyboard.press("Enter");
    await page.getByText("it breaks the charge controller").waitFor();
    await glance(page);
  });

  test("a set above 60 V warns where it is typed", async () => {
    await step(page, `sheet/${ID}/set`);
    await type("Volts", "72");
    await page.getByText("This set can give a shock: trained people only.").waitFor();
  });
});

describe("the end of a vehicle", () => {
  test("off the road and back", async () => {
    await step(page, `sheet/${ID}`);
    await press("Off the road");
    await page.locator(".off-word").waitFor();
    await press("Back on the road");
    await page.locator(".off-word").waitFor({ state: "detached" });
  });

  test("asks for its number, removes nothing for another, and gives it back", async () => {
    await press("Remove this vehicle");
    await page.locator("input.typed").fill("06");
    await page.keyboard.press("Enter");
    await page.getByText("That is another number. Nothing was removed.").waitFor();
    await page.locator("input.typed").fill("05");
    await page.keyboard.press("Enter");
    await page.getByText("05 is removed.").waitFor();
    expect(await ownRecords()).toBe(0);
    await press("Undo");
    await page.waitForFunction(() => !document.querySelector(".foot-line"));
    // two weeks of days, readings and shifts come back with it
    await expect.poll(ownRecords, { timeout: 10_000 }).toBeGreaterThan(20);
    await step(page, `sheet/${ID}`);
    expect(await page.locator(".plate").first().textContent()).toBe("05");
  });
});
