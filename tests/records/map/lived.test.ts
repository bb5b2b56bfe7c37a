import { expect, test } from "vitest";
import type { Entry, Forecast, Said, Vehicle } from "../../../src/records/index.js";
import { type LivedCase, livedDays, scoreOf, sumOfScores } from "../../../src/records/map/lived.js";
import { plusDays } from "../../../src/units/zone.js";
import { examples } from "../examples.js";

const vehicle: Vehicle = { ...(examples.vehicle as Vehicle), gauge: { kind: "percent", bars: null } };
const yard = examples.yard as LivedCase["yard"];
const first = "2027-02-01";

const said = (home: readonly number[], change: Partial<Said> = {}): Said => ({
  madeUtcMs: 1_801_000_000_000,
  days: 12,
  verdict: "enough",
  chance: 0.9,
  reserveShare: 0.2,
  home,
  lowest: home,
  kmPerSet: 80,
  ...change,
});
const HOME = [0.25, 0.3, 0.4, 0.5, 0.55];
const forecast = (day: number, change: Partial<Forecast>): Forecast => {
  const date = plusDays(first, day);
  return { id: `${vehicle.id}/${date}`, v: 1, vehicleId: vehicle.id, date, evening: null, first: null, ...change };
};
const entry = (day: number, percent: number | null, change: Partial<Entry> = {}): Entry => {
  const date = plusDays(first, day);
  return {
    ...(examples.entry as Entry),
    id: `${vehicle.id}/${date}/1`,
    date,
    level: percent === null ? null : { kind: "percent", value: percent, perBlock: false },
    pluggedAt: null,
    gridKwh: null,
    formerly: [],
    ...change,
  };
};
const lived = (forecasts: readonly Forecast[], entries: readonly Entry[]) =>
  livedDays({ vehicle, yard, forecasts, entries, learned: null });

// Quantile loss of Koenker and Bassett (1978), Econometrica 46, 33: level x (outcome - forecast) above, (1 - level) x (forecast - outcome) below.
test("the loss of a day is the mean of its five quantiles' losses, by the published formula", () => {
  const score = scoreOf(lived([forecast(0, { first: said(HOME) })], [entry(0, 35)]));
  const losses = [0.05 * 0.1, 0.1 * 0.05, 0.5 * 0.05, 0.1 * 0.15, 0.05 * 0.2];
  expect(score?.pinball).toBeCloseTo(losses.reduce((sum, loss) => sum + loss, 0) / 5, 4);
  expect(score).toMatchObject({ days: 1, inside80: 1, inside90: 1, missedShort: 0, falseAlarms: 0 });
  expect(score?.off).toBeCloseTo(0.05, 6);
  expect(score?.offKm).toBeCloseTo(0.05 * 80, 4);
});

test("bands are counted by their own ends; a shortage nobody said and one that did not come are told apart", () => {
  const days = lived(
    [
      forecast(0, { first: said(HOME) }),
      forecast(1, { first: said(HOME) }),
      forecast(2, { first: said(HOME) }),
      forecast(3, { first: said([0.05, 0.1, 0.15, 0.3, 0.4], { verdict: "short" }) }),
    ],
    [entry(0, 27), entry(1, 60), entry(2, 10), entry(3, 30)],
  );
  expect(scoreOf(days)).toMatchObject({ days: 4, inside80: 1, inside90: 2, missedShort: 1, falseAlarms: 1 });
  expect(days[2]?.offKm).toBeCloseTo((0.1 - 0.4) * 80, 4);
});

test("the day's own forecast counts before the evening's, which counts only where nothing was plugged in after it", () => {
  const both = { evening: said([0.6, 0.65, 0.7, 0.75, 0.8]), first: said(HOME) };
  expect(lived([forecast(1, both)], [entry(1, 40)])[0]?.when).toBe("first");
  const eveningOnly = { ...both, first: null };
  expect(lived([forecast(1, eveningOnly)], [entry(0, 50), entry(1, 40)])[0]?.when).toBe("evening");
  expect(lived([forecast(1, eveningOnly)], [entry(0, 50, { pluggedAt: "21:00" }), entry(1, 40)])).toEqual([]);
  expect(lived([forecast(1, eveningOnly)], [entry(1, 40)])).toEqual([]); // nobody knows what the night put in
});

test("days without a gauge or without an answer are not scored", () => {
  const unknown = said(HOME, { verdict: "notKnown" });
  expect(
    lived([forecast(0, { first: unknown }), forecast(1, { first: said(HOME) })], [entry(0, 40), entry(1, null)]),
  ).toEqual([]);
  expect(scoreOf([])).toBeNull();
});

test("scores of vehicles add up to those of the fleet", () => {
  const one = scoreOf(lived([forecast(0, { first: said(HOME) })], [entry(0, 35)]));
  const two = scoreOf(
    lived([forecast(1, { first: said(HOME) }), forecast(2, { first: said(HOME) })], [entry(1, 10), entry(2, 40)]),
  );
  expect(sumOfScores([one, null, two])).toMatchObject({ days: 3, inside80: 2, missedShort: 1 });
  expect(sumOfScores([null])).toBeNull();
});
