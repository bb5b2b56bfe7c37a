// The screens of the built app, each with a path at which it has something to show, in the yard that is not real.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { ROOT } from "./open.mjs";

/** Names of all screens, read from the tables the app itself uses, so that none is passed over. */
export function screenNames() {
  const tables = ["index.ts", "later.ts"].map((file) => readFileSync(join(ROOT, "src/app/screens", file), "utf8"));
  return [...tables.join("\n").matchAll(/^ {2}"?([a-z][a-z-]*)"?: \{ place:/gm)].map((found) => String(found[1]));
}

/** What some screens want after their name: a vehicle or a round of the demo. */
const WANTS = {
  "night-vehicle": "vehicle",
  sheet: "vehicle",
  care: "vehicle",
  log: "vehicle",
  round: "round",
  kit: "vehicle",
  "kit-sheet": "vehicle",
  compare: "vehicle",
};

/** @param {import("playwright-core").Page} page @param {string} origin @param {string} name */
export async function visit(page, origin, name) {
  const wants = WANTS[name];
  const path = wants ? `${name}/${await idIn(page, wants)}` : name;
  await page.goto(`${origin}/?${path}`);
  await page.waitForSelector("#app h1");
  await settled(page);
}

/** First id of a kind in the database of the demo. @param {import("playwright-core").Page} page @param {string} kind */
function idIn(page, kind) {
  return page.evaluate(
    (kind) =>
      new Promise((done, fail) => {
        const open = indexedDB.open("noonplug-demo");
        open.onerror = () => fail(open.error);
        open.onsuccess = () => {
          const keys = open.result
            .transaction("records")
            .objectStore("records")
            .getAllKeys(IDBKeyRange.bound(`${kind}/`, `${kind}0`));
          keys.onsuccess = () => {
            open.result.close();
            done(String(keys.result[0]).slice(kind.length + 1));
          };
        };
      }),
    kind,
  );
}

/** Until nothing is being worked out and nothing has moved for a while. @param {import("playwright-core").Page} page */
export async function settled(page) {
  let last = "";
  for (let same = 0, tries = 0; same < 3 && tries < 60; tries++) {
    await page.waitForTimeout(100);
    const now = await page.evaluate(() => document.body.innerHTML);
    same = now === last ? same + 1 : 0;
    last = now;
  }
}

/** Opens the yard that is not real, through the key a person presses. @param {import("playwright-core").Page} page @param {string} origin */
export async function startDemo(page, origin) {
  await page.goto(`${origin}/?start`);
  await page.waitForSelector(".ways.first .key");
  await page.locator(".ways.first .key").nth(3).click();
  await page.waitForSelector(".row-key .mark", { timeout: 60_000 });
  await settled(page);
}

/** Changes how the phone shows things, as "This phone" would. @param {import("playwright-core").Page} page @param {object} change */
export const setting = (page, change) =>
  page.evaluate((change) => {
    localStorage.noonplug = JSON.stringify({ ...JSON.parse(localStorage.noonplug ?? "{}"), ...change });
  }, change);
