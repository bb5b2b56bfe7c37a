import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { DIST, openBrowser, serve } from "./open.mjs";
import { settled, startDemo } from "./visits.mjs";

type Served = Awaited<ReturnType<typeof serve>>;
type Opened = Awaited<ReturnType<typeof openBrowser>>;

const LONG = { timeout: 30_000 };
let server: Served;
let opened: Opened;

beforeAll(async () => {
  server = await serve(DIST);
  opened = await openBrowser();
  await startDemo(opened.page, server.origin);
  await untilKept("learned", 11);
}, 120_000);
afterAll(async () => {
  await opened?.close();
  await server?.close();
});

interface Kept {
  readonly key: string;
  readonly f: Readonly<Record<string, unknown>>;
}

/** Records of a kind as they lie in the database of the demo. */
const kept = (kind: string): Promise<readonly Kept[]> =>
  opened.page.evaluate(
    (of) =>
      new Promise<readonly Kept[]>((done, fail) => {
        const open = indexedDB.open("noonplug-demo");
        open.onerror = () => fail(open.error);
        open.onsuccess = () => {
          const range = IDBKeyRange.bound(`${of}/`, `${of}0`);
          const all = open.result.transaction("records").objectStore("records").getAll(range);
          all.onsuccess = () => {
            open.result.close();
            done((all.result as (Kept & { d?: string; t: string })[]).filter(({ d, t }) => d === undefined || d < t));
          };
        };
      }),
    kind,
  );
async function untilKept(kind: string, least: number): Promise<void> {
  for (let tries = 0; tries < 120; tries++) {
    if ((await kept(kind)).length >= least) return;
    await opened.page.waitForTimeout(500);
  }
  throw new Error(`Fewer than ${least} of ${kind} after a minute`);
}

const today = () =>
  opened.page.evaluate(() => new Intl.DateTimeFormat("en-CA", { timeZone: "Africa/Nairobi" }).format());
const entryOf = async (vehicleId: string, date: string) =>
  (await kept("entry")).find(({ key }) => key === `entry/${vehicleId}/${date}/1`)?.f;

async function open(path: string): Promise<void> {
  await opened.page.goto(`${server.origin}/?${path}`);
  await opened.page.waitForSelector("#app h1");
  await settled(opened.page);
}

/** Types a number into the open pad and keeps it. */
async function typeIn(text: string): Promise<void> {
  const { page } = opened;
  await page.waitForSelector("dialog.pad", LONG);
  await page.keyboard.type(text);
  await page.locator("dialog.pad .pad-ends .key").last().click();
}

const ask = (no: number) => opened.page.locator("section.ask.written").nth(no - 1);
const otherKey = (no: number) => ask(no).locator(".key.alt").last();

describe("the slate of a whole yard", () => {
  test("takes four taps for a vehicle and then shows the next; leaving half-way keeps what is in", async () => {
    const { page, complaints } = opened;
    complaints.length = 0;
    const date = await today();
    await open("paper");
    await page.locator(".ways .key.main").click();
    await page.waitForSelector("section.ask.written", LONG);
    expect(await page.locator("header .plate").textContent()).toBe("01");
    for (const no of [1, 2, 3, 4]) await ask(no).locator(".key").first().click();
    await expect.poll(() => page.locator("header .plate").textContent(), LONG).toBe("02");
    const first = await entryOf("quay-01", date);
    for (const field of ["km", "level", "loadClass", "pluggedAt"]) expect(first?.[field], field).not.toBeNull();
    await ask(1).locator(".key").first().click();
    await expect.poll(async () => (await entryOf("quay-02", date))?.km ?? null, LONG).not.toBeNull();
    await open(`paper/${date}`);
    await expect.poll(() => page.locator(".ways .key.main").textContent(), LONG).toContain("2");
    expect(await page.locator(".row-key .dots .full").count()).toBe(5);
    expect(complaints).toEqual([]);
  }, 90_000);

  test("yesterday can be written in, and what is written there can be taken back", async () => {
    const { page } = opened;
    await open("paper");
    await page.locator("fieldset .key").nth(1).click();
    await expect.poll(() => page.locator("fieldset .key").nth(1).getAttribute("aria-pressed"), LONG).toBe("true");
    const path = await page.evaluate(() => decodeURIComponent(location.search.slice(1)));
    const date = path.split("/")[1] ?? "";
    expect(date < (await today())).toBe(true);
    await open(`paper/${date}/quay-03`);
    const before = await entryOf("quay-03", date);
    await otherKey(1).click();
    await typeIn("17");
    await expect.poll(async () => (await entryOf("quay-03", date))?.km, LONG).toBe(17);
    await page.locator(".saved .key").first().click();
    await expect.poll(async () => (await entryOf("quay-03", date))?.km ?? null, LONG).toBe(before?.km ?? null);
  }, 90_000);
});

describe("an odd value is asked about in one sentence, and stays meanwhile", () => {
  test("a nought too many: kept as typed, and the likely figure is one tap away; the former one is kept and shown", async () => {
    const { page } = opened;
    const date = await today();
    await open(`paper/${date}/quay-04`);
    await otherKey(1).click();
    await typeIn("450");
    await page.waitForSelector(".asked", LONG);
    expect((await entryOf("quay-04", date))?.km).toBe(450);
    await page.locator(".asked .key.pick").click();
    await expect.poll(async () => (await entryOf("quay-04", date))?.km, LONG).toBe(45);
    expect((await entryOf("quay-04", date))?.formerly).toEqual([expect.objectContaining({ field: "km", value: 450 })]);
    await expect.poll(() => ask(1).locator("h2 small").textContent(), LONG).toContain("450");
    await expect.poll(() => page.locator(".asked").count(), LONG).toBe(0);
  }, 90_000);

  test("more % than full waits on the screen with its question, and nothing is lost", async () => {
    const { page } = opened;
    const date = await today();
    await open(`paper/${date}/quay-04`);
    await otherKey(2).click();
    await typeIn("620");
    await page.waitForSelector(".asked", LONG);
    expect((await entryOf("quay-04", date))?.level ?? null).toBeNull();
    await page.locator(".asked .key.pick").click();
    await expect
      .poll(async () => (await entryOf("quay-04", date))?.level, LONG)
      .toEqual({ kind: "percent", value: 62, perBlock: false });
  }, 90_000);

  test("volts of one battery are made out as those of the set", async () => {
    const { page } = opened;
    const date = await today();
    await open(`paper/${date}/quay-05`);
    await otherKey(2).click();
    await typeIn("12.4");
    await expect.poll(async () => (await entryOf("quay-05", date))?.level ?? null, LONG).not.toBeNull();
    const level = (await entryOf("quay-05", date))?.level as { value: number; perBlock: boolean };
    expect(level).toMatchObject({ value: 12.4, perBlock: true }); // known for what it is, so nothing has to be asked
    await otherKey(2).click();
    await typeIn("497");
    await page.waitForSelector(".asked", LONG);
    await page.locator(".asked .key.pick").click();
    await expect
      .poll(async () => (await entryOf("quay-05", date))?.level, LONG)
      .toMatchObject({ kind: "volts", value: 49.7 });
  }, 90_000);

  test("what the odometer shows, typed as km of the day, becomes the odometer", async () => {
    const { page } = opened;
    const date = await today();
    await open(`paper/${date}/quay-06`);
    await otherKey(1).click();
    await typeIn("18420");
    await page.waitForSelector(".asked", LONG);
    await page.locator(".asked .key.pick").first().click();
    await expect.poll(async () => (await entryOf("quay-06", date))?.odometerKm, LONG).toBe(18420);
    expect((await entryOf("quay-06", date))?.km ?? null).toBeNull();
  }, 90_000);

  test("a second entry for a day may come on top of the first", async () => {
    const { page } = opened;
    const date = await today();
    await open(`paper/${date}/quay-04`);
    await otherKey(1).click();
    await typeIn("30");
    await page.waitForSelector(".asked", LONG);
    await page.locator(".asked .key.pick").click();
    await expect.poll(async () => (await entryOf("quay-04", date))?.km, LONG).toBe(75);
  }, 90_000);

  test("a day to come is asked about", async () => {
    const { page } = opened;
    const date = await page.evaluate(() =>
      new Intl.DateTimeFormat("en-CA", { timeZone: "Africa/Nairobi" }).format(Date.now() + 3 * 86_400_000),
    );
    await open(`paper/${date}/quay-09`);
    await ask(1).locator(".key").first().click();
    await page.waitForSelector(".asked", LONG);
    expect(await page.locator(".asked p").textContent()).toMatch(/not come/);
    await expect.poll(async () => (await entryOf("quay-09", date))?.km ?? null, LONG).not.toBeNull();
  }, 90_000);
});

describe("lived against forecast", () => {
  test("one sentence in km and %, a picture and its figures, each part with its spread", async () => {
    const { page, complaints } = opened;
    complaints.length = 0;
    await open("log/quay-02");
    await page.waitForSelector(".log-week", LONG);
    expect(await page.locator(".log-week").textContent()).toMatch(/missed by \D*\d+\D* km, \D*\d+\D*%/);
    expect(await page.locator(".lived svg .lived-dot").count()).toBeGreaterThanOrEqual(7);
    expect(await page.locator(".lived-table tbody tr").count()).toBeGreaterThanOrEqual(7);
    expect(await page.locator(".taught dd small").first().textContent()).toMatch(/%.* to .*%/);
    expect(complaints).toEqual([]);
  }, 60_000);

  test("what was learned can be left aside and taken up again, and started anew; the log stays", async () => {
    const { page } = opened;
    const learned = async () => (await kept("learned")).find(({ key }) => key === "learned/quay-02")?.f;
    const vehicle = async () => (await kept("vehicle")).find(({ key }) => key === "vehicle/quay-02")?.f.learned;
    const entries = (await kept("entry")).length;
    const keys = page.locator(".log > .ways .key");
    await open("log/quay-02");
    await keys.first().click();
    await expect.poll(async () => (await learned())?.on, LONG).toBe(false);
    await expect.poll(vehicle, LONG).toBeNull();
    await keys.first().click();
    await expect.poll(async () => (await learned())?.on, LONG).toBe(true);
    await expect.poll(vehicle, LONG).not.toBeNull();
    await keys.nth(1).click();
    await expect.poll(async () => (await learned())?.sinceDate, LONG).toBe(await today());
    await page.locator(".feet .key").first().click();
    await expect.poll(async () => (await learned())?.sinceDate ?? null, LONG).toBeNull();
    expect((await kept("entry")).length).toBe(entries);
  }, 90_000);

  test("a day's entry changes what is learned, and the forecast of tomorrow is kept", async () => {
    const state = async () => (await kept("learned")).find(({ key }) => key === "learned/quay-08")?.f.state;
    const before = await state();
    const date = await today();
    await open(`paper/${date}/quay-08`);
    await ask(1).locator(".key").nth(2).click();
    await ask(2).locator(".key").nth(1).click();
    await expect.poll(async () => (await state()) !== before, { timeout: 60_000 }).toBe(true);
    const forecasts = (await kept("forecast")).filter(({ key }) => key.startsWith("forecast/quay-08/"));
    expect(forecasts.length).toBeGreaterThan(20);
  }, 120_000);
});

test("in other hands: one vehicle and no money, on every screen that opens", async () => {
  const { page } = opened;
  const lend = (lent: boolean) =>
    page.evaluate((to) => {
      const now = JSON.parse(localStorage.noonplug ?? "{}");
      localStorage.noonplug = JSON.stringify({ ...now, lent: to, vehicleId: "quay-01" });
    }, lent);
  await lend(true);
  const money = /\bkes\b|\bpaid\b|tariff|price|\bfee\b/;
  for (const path of [
    "today",
    "write",
    "log/quay-01",
    "care/quay-01",
    "sheet/quay-01",
    "vehicles",
    "tonight",
    "paper",
  ]) {
    await open(path);
    const text = (await page.locator("#app").textContent()) ?? "";
    expect(text.toLowerCase(), path).not.toMatch(money);
    expect(text, path).not.toMatch(/Basil|Coral|Dolphin/);
    expect(await page.locator(".nav a").count(), path).toBeLessThanOrEqual(2);
  }
  await open("phone");
  expect(await page.locator("#app").textContent()).not.toMatch(/A copy of everything|Remove everything/);
  await lend(false);
  await open("vehicles");
  expect(await page.locator("#app").textContent()).toMatch(/12 vehicles/);
}, 120_000);
