// node tests/bench/scale.mjs [VEHICLES] [DAYS]: a thousand vehicles and three years of their days in Chromium's own IndexedDB, read at a slowed-down
// processor: the least of some runs, which says most where others use the machine too, and the median. A meter, not a test. With --json the figures
// alone. SCALE_PROFILE names a folder in which the records stay for the next time.
import { join } from "node:path";
import { build } from "vite";
import { ensureBrowser } from "../../src/tools/ready.mjs";
import { openBrowser, ROOT, serve } from "../browser/open.mjs";

const figures = process.argv.slice(2).filter((word) => !word.startsWith("--"));
const VEHICLES = Number(figures[0] ?? 1000);
const DAYS = Number(figures[1] ?? 1000);
const CPU_SLOWDOWN = 4;
const RUNS = 9;
const OUT = join(ROOT, "node_modules", ".cache", "scale-page");

process.env.CHROMIUM ??= ensureBrowser();
await build({
  configFile: false,
  logLevel: "warn",
  root: join(ROOT, "tests", "browser", "store"),
  publicDir: false,
  build: { outDir: OUT, emptyOutDir: true, target: "es2022", modulePreload: { polyfill: false } },
});
const { demoFleets } = await loadDemo();
const fleet = demoFleets.quay("2027-02-10");

/** The made-up fleets, as the demo makes them. */
async function loadDemo() {
  const { createServer } = await import("vite");
  const server = await createServer({
    configFile: false,
    root: ROOT,
    logLevel: "error",
    server: { middlewareMode: true },
  });
  const part = await server.ssrLoadModule("/src/records/demo/index.ts");
  await server.close();
  return part;
}

const site = await serve(OUT, process.env.SCALE_PROFILE ? 4179 : 0); // a profile knows its records by their address
const profile = process.env.SCALE_PROFILE;
const { page, context, close } = await openBrowser(profile ? { profile } : {});
const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
try {
  await page.goto(site.origin);
  await page.waitForFunction(() => document.title === "ready");
  await page.evaluate(() => window.store.list("yard")); // makes the database
  const pattern = {
    yard: fleet.yards[0],
    round: fleet.rounds[0],
    vehicles: fleet.vehicles,
    entry: fleet.entries[0],
    reading: fleet.readings[0],
    forecast: fleet.forecasts[0],
  };
  const began = performance.now();
  const before = await page.evaluate(countOf);
  const count =
    before > VEHICLES * DAYS ? before : await page.evaluate(fill, { pattern, vehicles: VEHICLES, days: DAYS });
  const filledS = (performance.now() - began) / 1000;
  const cdp = await context.newCDPSession(page);
  const measured = { list: [], rest: [], history: [], latest: [], day: [] };
  for (let run = 0; run < RUNS; run++) {
    await page.goto(site.origin);
    await page.waitForFunction(() => document.title === "ready");
    await cdp.send("Emulation.setCPUThrottlingRate", { rate: CPU_SLOWDOWN });
    const took = await page.evaluate(measure, { days: DAYS, run });
    for (const [name, ms] of Object.entries(took)) measured[name].push(ms);
    await cdp.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  }
  const row = (name, of, limitMs) => ({ name, ms: Math.min(...measured[of]), medianMs: median(measured[of]), limitMs });
  const rows = [
    row(`${VEHICLES} vehicles for the list, of ${count} records`, "list", 300),
    row("what their answers need besides, while the list stands", "rest", null),
    row(`one vehicle's ${DAYS} days through the strict door`, "history", 200),
    row("one vehicle's last 15 days", "latest", 200),
    row("one day of all vehicles", "day", null),
  ];
  if (process.argv.includes("--json")) console.log(JSON.stringify(rows));
  else {
    console.log(
      `${count} records, ready in ${filledS.toFixed(0)} s; processor slowed ${CPU_SLOWDOWN} times, ${RUNS} runs`,
    );
    for (const { name, ms, medianMs, limitMs } of rows)
      console.log(
        `${name}: least ${Math.round(ms)} ms, median ${Math.round(medianMs)} ms${limitMs ? ` (${limitMs} wanted)` : ""}`,
      );
  }
} finally {
  await close();
  await site.close();
}

/** In the page: how many records there are. */
function countOf() {
  return new Promise((done, fail) => {
    const open = indexedDB.open("noonplug");
    open.onerror = () => fail(open.error);
    open.onsuccess = () => {
      const all = open.result.transaction("records").objectStore("records").count();
      all.onsuccess = () => {
        open.result.close();
        done(all.result);
      };
    };
  });
}

/** In the page: rows as the store keeps them, past its door, as only their number matters here. */
async function fill({ pattern, vehicles, days }) {
  const STAMP = "0m0000000000scale";
  const open = indexedDB.open("noonplug");
  const database = await new Promise((done, fail) => {
    open.onsuccess = () => done(open.result);
    open.onerror = () => fail(open.error);
  });
  const dayOf = (n) => new Date(Date.now() - (days - 1 - n) * 86_400_000).toISOString().slice(0, 10);
  const row = (kind, { id, ...f }, history) => ({ key: `${kind}/${id}`, k: kind, f, t: STAMP, ...history });
  let count = 0;
  let held = [];
  const write = () =>
    new Promise((done, fail) => {
      const tx = database.transaction("records", "readwrite", { durability: "relaxed" });
      const records = tx.objectStore("records");
      for (const one of held) records.put(one);
      count += held.length;
      held = [];
      tx.oncomplete = () => done(null);
      tx.onabort = () => fail(tx.error);
    });
  held.push(row("yard", pattern.yard), row("round", pattern.round));
  for (let v = 0; v < vehicles; v++) {
    const like = pattern.vehicles[v % pattern.vehicles.length];
    const id = `v${String(v).padStart(4, "0")}`;
    held.push(row("vehicle", { ...like, id, plate: String(v + 1) }));
    const packed = "0.1234567,".repeat(130); // as long as what is learned of a vehicle
    held.push(
      row("learned", {
        id,
        v: 1,
        vehicleId: id,
        on: true,
        sinceDate: null,
        settled: packed,
        state: packed,
        pluggedUtcMs: null,
        score: null,
      }),
    );
    for (let n = 0; n < days; n++) {
      const date = dayOf(n);
      held.push(
        row(
          "entry",
          { ...pattern.entry, id: `${id}/${date}/1`, vehicleId: id, date, km: 40 + (n % 9) },
          { w: id, y: date },
        ),
      );
      if (days - n <= 14) {
        const atUtcMs = Date.parse(`${date}T05:00:00Z`);
        held.push(
          row(
            "reading",
            { ...pattern.reading, id: `${id}/${atUtcMs}`, vehicleId: id, atUtcMs },
            { w: id, y: new Date(atUtcMs).toISOString() },
          ),
        );
      }
    }
    if (held.length > 20_000) await write();
  }
  await write();
  database.close();
  return count;
}

/** In the page: each question once, as the first one after a start. */
async function measure({ days, run }) {
  const timed = async (work) => {
    const from = performance.now();
    await work();
    return performance.now() - from;
  };
  const day = (back) => new Date(Date.now() - back * 86_400_000).toISOString().slice(0, 10);
  const near = [day(14), day(-7)];
  const whole = ["yard", "socket", "vehicle", "round", "learned", "placeLearned"].map((kind) => ({ kind }));
  const byDay = ["shift", "sky", "reading", "night"].map((kind) => ({ kind, days: near }));
  const id = `v${String(17 + run).padStart(4, "0")}`;
  const must = (found, least) => {
    if (!found || found < least) throw new Error(`only ${found} of ${least} records came`);
  };
  return {
    list: await timed(async () => must((await window.readQuickly("noonplug", whole.slice(0, 4)))?.vehicle.length, 1)),
    rest: await timed(() => window.readQuickly("noonplug", [...whole.slice(4), ...byDay])),
    history: await timed(async () =>
      must((await window.store.history("entry", id, day(days), day(0))).value.records.length, days - 1),
    ),
    latest: await timed(async () => must((await window.store.latest("entry", id, 15)).value.records.length, 15)),
    day: await timed(async () => must((await window.store.between("entry", day(0), day(0))).value.records.length, 1)),
  };
}
