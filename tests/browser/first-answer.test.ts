import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { DIST, openBrowser, ROOT, serve } from "./open.mjs";
import { settled } from "./visits.mjs";

type Served = Awaited<ReturnType<typeof serve>>;
type Opened = Awaited<ReturnType<typeof openBrowser>>;
let server: Served;
let opened: Opened;

beforeAll(async () => {
  server = await serve(DIST);
  opened = await openBrowser();
});
afterAll(async () => {
  await opened?.close();
  await server?.close();
});

/** Presses Tab until a key with this name has the focus. */
async function tabTo(name: RegExp, most = 60): Promise<void> {
  const { page } = opened;
  for (let presses = 0; presses < most; presses++) {
    const label = await page.evaluate(() => {
      const at = document.activeElement;
      return at === document.body ? "" : (at?.getAttribute("aria-label") ?? at?.textContent ?? "");
    });
    if (name.test(label.trim())) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`Tab never reached ${name}`);
}

test("from an empty phone to the first answer with the keyboard alone, and the answer is still there after a restart", async () => {
  const { page, complaints } = opened;
  await page.goto(server.origin);
  await page.waitForSelector(".ways.first");
  await tabTo(/^My vehicle/);
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement as Element).outlineStyle);
  expect(outline).toBe("solid"); // where the focus is can be seen
  await page.keyboard.press("Enter");
  await page.waitForSelector(".ask");
  for (const name of [/^rickshaw$/, /^60$/, /^30$/, /^2$/, /^volts$/, /^See the day/]) {
    await tabTo(name);
    await page.keyboard.press("Enter");
  }
  await page.waitForSelector("svg.strip");
  await settled(page);
  const word = await page.locator(".verdict b").first().textContent();
  expect(word).toMatch(/^(Enough|Tight|Short)$/);
  expect(await page.locator(".verdict").first().textContent()).toContain("a guess, no log yet");
  await page.reload();
  await page.waitForSelector("svg.strip");
  await settled(page);
  expect(await page.locator(".verdict b").first().textContent()).toBe(word);
  expect(complaints).toEqual([]);
});

test("a reading is kept before the screen says so, and can be taken back", async () => {
  const { page } = opened;
  await page.goto(`${server.origin}/?gauge`);
  await page.waitForSelector(".ks.numbers .key");
  await page.locator(".ks.numbers .key").nth(3).click();
  await page.waitForSelector(".feet .key");
  const read = () =>
    page.evaluate(
      () =>
        new Promise<number>((done) => {
          const open = indexedDB.open("noonplug");
          open.onsuccess = () => {
            const rows = open.result
              .transaction("records")
              .objectStore("records")
              .getAll(IDBKeyRange.bound("reading/", "reading0"));
            rows.onsuccess = () => {
              open.result.close();
              const alive = (rows.result as { t: string; d?: string }[]).filter((row) => !row.d || row.d < row.t);
              done(alive.length);
            };
          };
        }),
    );
  expect(await read()).toBe(2); // the guess of a full set, and what was typed
  await page.locator(".feet .key").click();
  await expect.poll(read).toBe(1);
});

test("the strip can be read hour by hour in sentences", async () => {
  const { page } = opened;
  await page.goto(`${server.origin}/?today`);
  await page.waitForSelector("svg.strip");
  await page.getByRole("button", { name: "Help" }).click();
  await page.waitForSelector(".hours p");
  const first = await page.locator(".hours p").textContent();
  expect(first).toMatch(/^\d\d:00, (\d+ % \(\d+ to \d+\)|level not known), /);
  await page.getByRole("button", { name: "One hour on" }).click();
  expect(await page.locator(".hours p").textContent()).not.toBe(first);
});

test("a broken fleet file changes nothing and every place is named; a good copy comes back", async () => {
  const { page } = opened;
  await page.goto(`${server.origin}/?phone`);
  await page.waitForSelector("input[type=file]", { state: "attached" });
  const give = (text: string) =>
    page.setInputFiles("input[type=file]", {
      name: "file.json",
      mimeType: "application/json",
      buffer: Buffer.from(text),
    });
  const broken = JSON.parse(readFileSync(join(ROOT, "shared/demo/stand.json"), "utf8"));
  broken.vehicles[1].battery.reserveShare = 3;
  broken.vehicles[2].colour = "red";
  broken.vehicles[3].usual.roundId = "no-such-round";
  await give(JSON.stringify(broken));
  await page.waitForSelector(".places-list li");
  const places = await page.locator(".places-list li").allTextContents();
  const plates = broken.vehicles.map(({ plate }: { plate: string }) => plate);
  expect(places).toHaveLength(3);
  expect(places[0]).toMatch(new RegExp(`^Vehicle ${plates[1]}, The line: At most \\d+ %\\..*There it says: 300\\.$`));
  expect(places[1]).toBe(`Vehicle ${plates[2]}, colour: is not known here. There it says: red.`);
  expect(places[2]).toContain(`Vehicle ${plates[3]}, Round: names a round that is not in the file`);
  const box = await page.locator("[role=alert]").boundingBox();
  const bars = await page.evaluate(() =>
    [".ribbon", ".nav"].map((bar) => document.querySelector(bar)?.getBoundingClientRect().top),
  );
  expect(box?.y).toBeGreaterThan(bars[0] ?? 0);
  expect(box?.y).toBeLessThan((bars[1] ?? 0) - 100);
  await give("no file of ours");
  await expect.poll(() => page.locator(".asking").textContent()).toContain("not ours");
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: /A copy of everything/ }).click();
  const copy = await (await download).createReadStream();
  let text = "";
  for await (const piece of copy) text += piece;
  expect(JSON.parse(text).format).toBe("noonplug-backup");
  await give(text);
  await page.waitForSelector(".asking .key");
  await page.getByRole("button", { name: "Add it to what is here" }).click();
  await page.waitForSelector(".foot-line:has-text('Brought in.')");
});
