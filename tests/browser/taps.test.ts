import { readFileSync } from "node:fs";
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

test("a tap made as soon as a day can be tapped leaves what was written of it before", async () => {
  await page.addInitScript(() => {
    // The first key that comes, pressed the moment it is there.
    if (!location.search.includes("write/2026-01-15")) return;
    const watch = new MutationObserver(() => {
      const key = document.querySelector<HTMLElement>(".ask:nth-of-type(4) .key");
      if (!key) return;
      watch.disconnect();
      key.click();
    });
    watch.observe(document, { subtree: true, childList: true });
  });
  await page.goto(`${server.origin}/?write/2026-01-15`);
  await page.waitForFunction(() => document.querySelectorAll(".saved .full").length === 4, null, WAIT);
});

test("hours of the sky, painted in one go, are all painted", async () => {
  await step(page, "sky");
  await page.getByRole("button", { name: "8: all covered", exact: true }).first().click();
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

/** Ids of a kind in a database of the app, those that were removed left out. */
const idsIn = (database: string, kind: string): Promise<readonly string[]> =>
  page.evaluate(
    ([database, kind]) =>
      new Promise<readonly string[]>((done, fail) => {
        const open = indexedDB.open(database ?? "");
        open.onupgradeneeded = () => open.transaction?.abort(); // there is none: nothing half made is left behind
        open.onerror = () => (open.error?.name === "AbortError" ? done([]) : fail(open.error));
        open.onsuccess = () => {
          const all = open.result
            .transaction("records")
            .objectStore("records")
            .getAll(IDBKeyRange.bound(`${kind}/`, `${kind}0`));
          all.onsuccess = () => {
            open.result.close();
            done((all.result as { key: string; d?: string }[]).filter(({ d }) => !d).map(({ key }) => key));
          };
        };
      }),
    [database, kind],
  );
const tapTwice = (key: string) =>
  page.locator(key).evaluate((found: HTMLElement) => {
    found.click();
    found.click();
  });
const kept = () => page.evaluate(() => JSON.parse(localStorage.noonplug ?? "{}"));

test("one more trip is kept with its load, and an answer never stands beside another trip", async () => {
  await page.goto(`${server.origin}/?trip`);
  await page.locator(".verdict b").waitFor(WAIT);
  const pick = (name: string) =>
    page.evaluate(
      (name) =>
        new Promise<boolean>((done) => {
          // Whether the old answer went before the new one came.
          let cleared = false;
          const watch = new MutationObserver(() => {
            const answered = document.querySelector(".verdict b") !== null;
            cleared ||= !answered && document.querySelector(".foot .key[aria-disabled]") !== null;
            if (cleared && answered) {
              watch.disconnect();
              done(true);
            }
          });
          watch.observe(document.body, { subtree: true, childList: true, attributes: true });
          for (const key of document.querySelectorAll<HTMLElement>(".ask .key"))
            if (key.textContent === name) key.click();
          setTimeout(() => done(false), 30_000);
        }),
      name,
    );
  expect(await pick("12")).toBe(true);
  await page.getByRole("button", { name: "full", exact: true }).click();
  await page.locator(".verdict b").waitFor(WAIT);
  const before = new Set(await idsIn("noonplug-demo", "round"));
  await page.locator(".foot .key.main").click();
  await page.waitForURL(/today/, WAIT);
  const fresh = (await idsIn("noonplug-demo", "round")).filter((id) => !before.has(id));
  expect(fresh).toHaveLength(1);
  const parts = await page.evaluate(
    (key) =>
      new Promise<{ kind: string; payloadChangeKg?: number; km?: number }[]>((done) => {
        const open = indexedDB.open("noonplug-demo");
        open.onsuccess = () => {
          const row = open.result.transaction("records").objectStore("records").get(key);
          row.onsuccess = () => {
            open.result.close();
            done(row.result.f.parts);
          };
        };
      }),
    fresh[0] ?? "",
  );
  expect(parts.slice(-2)).toMatchObject([{ kind: "stop" }, { kind: "leg", km: 12 }]);
  expect(parts.at(-2)?.payloadChangeKg).toBeGreaterThan(0);
});

test("a number typed on a keyboard is the number kept, and takes the place of the old one", async () => {
  await page.goto(`${server.origin}/?trip`);
  await page.locator(".ask .key.alt").first().click();
  await page.locator("dialog[open]").waitFor(WAIT);
  await page.keyboard.type("50");
  await page.keyboard.press("Enter");
  await page.locator("dialog[open]").waitFor({ ...WAIT, state: "detached" });
  expect(await page.locator(".ask .key.alt").first().textContent()).toBe("50");
  await page.goto(`${server.origin}/?money-figures`);
  await page.getByRole("button", { name: "Show the money", exact: true }).click();
  const days = page.locator(".m-fields .key.field").filter({ hasText: "Working days a year" });
  const shown = page.locator("dialog[open] .pad-shown .fig");
  await days.click();
  await shown.waitFor(WAIT);
  await page.keyboard.type("300");
  await page.keyboard.press("Enter");
  await days.filter({ hasText: "300" }).click();
  await expect.poll(() => shown.textContent(), WAIT).toBe("300");
  await page.keyboard.type("7");
  expect(await shown.textContent()).toBe("7");
  await page.keyboard.press("Escape");
});

test("a key for an hour sets that hour, up to the end of the day", async () => {
  await page.goto(`${server.origin}/?road`);
  const keys = page.locator(".times .key");
  await keys.first().waitFor(WAIT);
  const leaves = page.locator("h2 .fig").first();
  for (let tries = 0; (await keys.count()) === 4 && tries < 40; tries++) {
    const says = String(await keys.last().textContent());
    await keys.last().click();
    await expect.poll(() => leaves.textContent(), WAIT).toBe(says);
  }
  expect(await keys.count()).toBeLessThan(4);
  const says = String(await keys.last().textContent());
  expect(says > "12:00").toBe(true); // none of them wraps into the next day
});

test("a second tap on a key that adds adds nothing", async () => {
  await step(page, "yard/sockets");
  const before = (await idsIn("noonplug-demo", "socket")).length;
  await tapTwice(".adding .key:last-child");
  await page.waitForFunction((count) => document.querySelectorAll(".part-row").length === count, before + 1, WAIT);
  await settled(page);
  expect(await idsIn("noonplug-demo", "socket")).toHaveLength(before + 1);
});

test("a vehicle of one's own is made once, however often the key is tapped", async () => {
  await page.locator(".demo-band .key").click();
  await page.locator(".ways.first .key").first().click();
  await page.locator(".ask").nth(4).waitFor();
  for (const ask of await page.locator(".ask").all()) await ask.locator(".key").first().click();
  await tapTwice(".foot .key.main");
  await page.waitForURL(/today/, WAIT);
  await settled(page);
  expect(await idsIn("noonplug", "vehicle")).toHaveLength(1);
  expect(await idsIn("noonplug", "yard")).toHaveLength(1);
});

test("the yard that is not real opens once, and what to go back to stays", async () => {
  const { vehicleId, role } = await kept();
  await step(page, "phone");
  const demo = page.getByRole("button", { name: /not real/ });
  await demo.evaluate((key: HTMLElement) => {
    key.click();
    key.click();
  });
  await page.locator(".demo-band").waitFor(WAIT);
  await settled(page);
  expect((await kept()).demo).toEqual({ vehicleId, role });
  await page.locator(".demo-band .key").click();
  await page.locator(".demo-band").waitFor({ ...WAIT, state: "detached" });
});

test("a yard that is not real and never came whole does not hide the person's own", async () => {
  const own = await kept();
  await setting(page, { demo: { vehicleId: own.vehicleId, role: own.role }, vehicleId: null, role: "yard" });
  await page.goto(`${server.origin}/?today`);
  await page.locator(".verdict").first().waitFor(WAIT);
  expect(await page.locator(".demo-band").count()).toBe(0);
  expect(await kept()).toMatchObject({ demo: null, vehicleId: own.vehicleId, role: own.role });
});

test("in the yard that is not real no file is brought in, and Remove everything removes the person's own too", async () => {
  await step(page, "phone");
  expect(await page.locator("input[type=file]").count()).toBe(1);
  await page.getByRole("button", { name: /not real/ }).click();
  await page.locator(".demo-band").waitFor(WAIT);
  await step(page, "phone");
  expect(await page.locator("input[type=file]").count()).toBe(0);
  await page.getByRole("button", { name: "Remove everything", exact: true }).click();
  await page.locator("dialog input").fill("1234");
  await page.keyboard.press("Enter");
  await page.locator(".ways.first").waitFor(WAIT);
  expect(await idsIn("noonplug", "vehicle")).toEqual([]);
  expect(await kept()).not.toHaveProperty("demo.role");
});

test("a copy brings back a vehicle that was removed since, when asked to", async () => {
  await page.locator(".ways.first .key").first().click();
  await page.locator(".ask").nth(4).waitFor(WAIT);
  for (const ask of await page.locator(".ask").all()) await ask.locator(".key").first().click();
  await page.locator(".foot .key.main").click();
  await page.waitForURL(/today/, WAIT);
  const [own = ""] = await idsIn("noonplug", "vehicle");
  const plate = await page.locator(".plate").first().textContent();
  await step(page, "phone");
  const [download] = await Promise.all([
    page.waitForEvent("download", WAIT),
    page.getByRole("button", { name: /A copy of everything/ }).click(),
  ]);
  const copy = await download.path();
  await step(page, `sheet/${own.slice("vehicle/".length)}`);
  await page.getByRole("button", { name: "Remove this vehicle" }).click();
  await page.locator("dialog input").fill(String(plate));
  await page.locator("dialog .pad-ends .key").last().click();
  await expect.poll(() => idsIn("noonplug", "vehicle"), WAIT).toEqual([]);
  await step(page, "phone");
  await page.setInputFiles("input[type=file]", {
    name: "copy.json",
    mimeType: "application/json",
    buffer: readFileSync(copy),
  });
  await page.getByText("removed here since").waitFor(WAIT);
  await page.getByRole("button", { name: "Add it, and bring back what was removed" }).click();
  await page.getByText("Brought in.").waitFor(WAIT);
  await step(page, `sheet/${own.slice("vehicle/".length)}`);
  await page.locator(".groups").waitFor(WAIT);
});
