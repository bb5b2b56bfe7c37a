import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { DIST, openBrowser, serve } from "./open.mjs";
import { screenNames, startDemo } from "./visits.mjs";

// Every address of the app, with what no link of ours ever says after its name: on a phone with a yard, and on an empty one.
type Opened = Awaited<ReturnType<typeof openBrowser>>;
const NAMES = screenNames();
const AFTER = [
  "nonsense",
  "2027-13-45",
  "9999-12-31",
  "0/-1/NaN",
  "%25E0%25A4",
  "<b>/'\"",
  "9".repeat(3000),
  "__proto__",
];
const STRANGE = ["nosuch", "constructor", "__proto__", "a/b/c/d", "%", "&&&", "9".repeat(3000)];

let server: Awaited<ReturnType<typeof serve>>;
let opened: Opened;
beforeAll(async () => {
  server = await serve(DIST);
});
afterAll(async () => {
  await server?.close();
});

/** Goes there within the page and waits until nothing changes any more. */
async function goTo(path: string): Promise<void> {
  await opened.page.evaluate((to) => {
    history.pushState({ depth: 1 }, "", `/?${to}`);
    dispatchEvent(new PopStateEvent("popstate"));
  }, path);
  let last = "";
  for (let same = 0, tries = 0; same < 3 && tries < 400; tries++) {
    await opened.page.waitForTimeout(25);
    const now = await opened.page.evaluate(() => document.body.innerHTML);
    same = now === last ? same + 1 : 0;
    last = now;
  }
}

/** What a person would hold against the page: nothing said, nothing to press, a sum that went wrong, a page that stopped. */
const faults = () =>
  opened.page.evaluate(() => {
    const app = document.querySelector("#app");
    const keys = app?.querySelectorAll("button, a[href]").length ?? 0;
    const wrong = /NaN|undefined|\bnull\b|Infinity|Invalid|\[object/.exec(app?.textContent ?? "");
    return [
      ...(app?.querySelector("h1")?.textContent ? [] : ["says nothing"]),
      ...(keys > 0 ? [] : ["leads nowhere"]),
      ...(wrong ? [`shows ${wrong[0]}`] : []),
      ...(app?.querySelector("[role=alert]")?.textContent ? ["stopped"] : []),
      ...(document.documentElement.scrollWidth > innerWidth + 1 ? ["is wider than the glass"] : []),
    ];
  });

async function walk(paths: readonly string[]): Promise<string[]> {
  const found: string[] = [];
  for (const path of paths) {
    opened.complaints.length = 0;
    await goTo(path);
    const held = [...(await faults()), ...opened.complaints];
    found.push(...held.map((fault) => `${path.slice(0, 60)}: ${fault.slice(0, 200)}`));
  }
  return found;
}

describe("on a phone with a yard", () => {
  beforeAll(async () => {
    opened = await openBrowser();
    await startDemo(opened.page, server.origin);
  });
  afterAll(async () => {
    await opened?.close();
  });

  test.each(NAMES)("%s, with nonsense after it", async (name) => {
    expect(await walk([name, ...AFTER.map((after) => `${name}/${after}`)])).toEqual([]);
  });
  test("names that are no screen's", async () => {
    expect(await walk(STRANGE)).toEqual([]);
  });
  test("an address that says nothing after the yard was removed leads on too", async () => {
    await goTo("vehicles");
    await opened.page.locator(".demo-band .key").click();
    await opened.page.waitForSelector(".ways.first");
    expect(await walk(["care/quay-01", "night-vehicle/quay-01", "sheet/quay-01", "today"])).toEqual([]);
  });
});

describe("on an empty phone", () => {
  beforeAll(async () => {
    opened = await openBrowser();
    await opened.page.goto(server.origin);
    await opened.page.waitForSelector(".ways.first");
  });
  afterAll(async () => {
    await opened?.close();
  });

  test("every screen says what is missing and leads on", async () => {
    expect(await walk([...NAMES.flatMap((name) => [name, `${name}/nonsense`]), "round/new", ...STRANGE])).toEqual([]);
  });
  test("a screen that needs a vehicle leads to the five taps", async () => {
    await goTo("gauge");
    await opened.page.getByRole("button", { name: "Five taps" }).click();
    await opened.page.waitForSelector(".ask.next");
  });
});
