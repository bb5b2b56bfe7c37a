import { expect, test } from "vitest";
import { emptyingW, type StoreModel } from "../../../src/calc/battery/index.js";
import { firstBelow } from "../../../src/calc/day/crossings.js";
import type { DaySegment } from "../../../src/calc/day/segments.js";
import { BOOK, walkDay } from "../../../src/calc/day/simulate.js";
import { cutSteps } from "../../../src/calc/day/steps.js";
import { storeTable } from "../../../src/calc/day/store-table.js";

const HOUR = 3_600_000;
const segment = (of: Partial<DaySegment>): DaySegment => ({
  fromUtcMs: 0,
  toUtcMs: HOUR / 4,
  kind: "stop",
  label: "",
  km: 0,
  drainW: 0,
  regenW: 0,
  otherW: 0,
  headingDeg: null,
  directBlocked: 0,
  diffuseBlocked: 0,
  windMs: 0,
  airC: 25,
  chargerW: 0,
  payloadKg: 0,
  onShift: true,
  ...of,
});
const lossless: StoreModel = {
  usableWh: 1000,
  lossPerW: 0,
  peukertExponent: 1,
  peukertRatedW: 100,
  acceptance: [
    { share: 0, w: 1e9 },
    { share: 1, w: 1e9 },
  ],
  stored: [
    { share: 0, value: 1 },
    { share: 1, value: 1 },
  ],
  selfDischargeW: 0,
};

function walk(segments: readonly DaySegment[], startWh: number, sun: number, model: StoreModel = lossless) {
  const { columns, rows } = cutSteps(segments, () => false);
  const store = storeTable(model);
  const book = new Float64Array(BOOK.size);
  const levelsWh = new Float64Array(columns.count);
  const sunW = new Float64Array(rows.length).fill(sun);
  walkDay(columns, store, { startWh, drive: 1, other: 1, sunW }, book, { levelsWh });
  return { columns, levelsWh, at: (name: keyof typeof BOOK) => book[BOOK[name]] as number };
}

// By hand: 960 Wh of 1000; 100 W of sun and 300 W of charger against 80 W drawn fill the last 40 Wh in 7.5 minutes. In those, all of
// both is used (12.5 and 37.5 Wh); in the 7.5 minutes after, the sun alone feeds what is drawn (10 Wh) and the charger rests.
test("a set that fills within a step takes the sun before the charger, before and after", () => {
  const done = walk([segment({ otherW: 80, chargerW: 300 })], 960, 100);
  expect(done.at("level")).toBe(1000);
  expect(done.at("fullUtcMs")).toBeCloseTo(HOUR / 8, 3);
  expect(done.at("sunTaken")).toBeCloseTo(22.5, 9);
  expect(done.at("grid")).toBeCloseTo(37.5, 9);
  expect(done.at("sunOffered")).toBeCloseTo(25, 9);
});

// By hand: 100 Wh and 800 W empty a set in 7.5 minutes; 40 Wh are left after 4.5 minutes.
test("a line is crossed when the level crosses it, also where the set is empty before the step ends", () => {
  const { columns, levelsWh, at } = walk([segment({ kind: "drive", drainW: 800 })], 100, 0);
  const walked = { levelsWh, startWh: 100, lowestUtcMs: at("lowestUtcMs") };
  expect(firstBelow(walked, columns, 40)).toBe((4.5 / 60) * HOUR);
  expect(firstBelow(walked, columns, 1e-9)).toBe((7.5 / 60) * HOUR);
  expect(at("missing")).toBeCloseTo(100, 9);
  expect(firstBelow(walked, columns, 120)).toBe(0); // below it from the start
  expect(firstBelow({ ...walked, startWh: 1000, levelsWh: levelsWh.map(() => 900) }, columns, 40)).toBeNull();
});

test("a step walked at once empties a set as the battery's own law does, hot or cold, above and below its rated rate", () => {
  for (const peukertExponent of [1, 1.2])
    for (const outW of [30, 100, 900]) {
      const model = { ...lossless, lossPerW: 2e-5, peukertExponent, selfDischargeW: 0.5 };
      const done = walk([segment({ kind: "drive", drainW: outW })], 900, 0, model);
      expect(900 - done.at("level")).toBeCloseTo((emptyingW(model, outW) + 0.5) / 4, 9);
    }
});

test("a day asked in one step, in quarter hours or in minutes comes to the same while the set takes all", () => {
  const long = segment({ toUtcMs: 3 * HOUR, otherW: 20 });
  const minutes = Array.from({ length: 180 }, (_, i) =>
    segment({ otherW: 20, fromUtcMs: (i * HOUR) / 60, toUtcMs: ((i + 1) * HOUR) / 60 }),
  );
  expect(walk([long], 200, 150).at("level")).toBeCloseTo(walk(minutes, 200, 150).at("level"), 9);
});
