import { describe, expect, test } from "vitest";
import { type DayInput, DRAWS } from "../../src/calc/day/input.js";
import { BOOK, walkDay } from "../../src/calc/day/simulate.js";
import { rowW } from "../../src/calc/day/sky-table.js";
import { type DayWalks, walkDraws } from "../../src/calc/day/walks.js";
import { type Dice, diceOf, normalQuantile, normalShare } from "../../src/units/dice.js";
import { clamp, quantileOfSorted } from "../../src/units/numbers.js";
import { anyDay } from "./any-day.js";

// Fixed unless given: with nine classes of a few hundred days each, one in thirty fresh fleets would stray beyond a bound by chance alone.
const FIRST_SEED = Number(process.env.PROPERTY_SEED ?? 1_000_003);
const DAYS = 2000;

interface Kept {
  readonly input: DayInput;
  readonly in80: boolean;
  readonly in90: boolean;
  readonly below10: boolean;
}

/** Cover that a share of days stays below. */
function quantile(chances: readonly number[], share: number): number {
  let sum = 0;
  const okta = chances.findIndex((chance) => {
    sum += chance;
    return share < sum;
  });
  return okta < 0 ? chances.findLastIndex((chance) => chance > 0) : okta;
}

/**
 * One true day out of the priors as they are stated, drawn here and not by the day's own draws: start, consumption, roof and accessories,
 * and a cloud whose hours share a part of the day (correlation) and else run on, free every third hour.
 */
function truthWh(walks: DayWalks, input: DayInput, dice: Dice): number {
  const { doubt } = input;
  const normal = () => normalQuantile(dice());
  const { table, store } = walks;
  const startWh = clamp(doubt.startShare + doubt.startSdShare * normal(), 0, 1) * store.usableWh;
  const drive = doubt.driveMiddle * Math.exp(doubt.driveSdLog * normal());
  const roof = doubt.roofMiddle * Math.exp(doubt.roofSdLog * normal());
  const other = doubt.otherMiddle * Math.exp(doubt.otherSdLog * normal());
  const day = normal();
  const nodes = Array.from({ length: 24 }, normal);
  const first = table.hourMiddleUtcMs[0] ?? 0;
  const okta = table.hourMiddleUtcMs.map((middle, h) => {
    const place = (middle - first) / (3 * 3_600_000);
    const part = place - Math.floor(place);
    const [a, b] = [nodes[Math.floor(place)] as number, nodes[Math.floor(place) + 1] as number];
    const course = ((1 - part) * a + part * b) / Math.hypot(1 - part, part);
    const z = Math.sqrt(doubt.coverDayCorrelation) * day + Math.sqrt(1 - doubt.coverDayCorrelation) * course;
    return quantile(table.covers[h]?.chances ?? [], normalShare(z));
  });
  const sunW = Float64Array.from(
    table.openSkyW,
    (_, r) => roof * rowW(table, r, okta[table.hourOfRow[r] as number] as number),
  );
  const book = new Float64Array(BOOK.size);
  walkDay(walks.steps.columns, store, { startWh, drive, other, sunW }, book);
  return book[BOOK.lowest] as number;
}

function kept(seed: number): Kept | null {
  const { input } = anyDay(seed, { usual: true, draws: DRAWS });
  const walks = walkDraws(input);
  const sorted = walks.lowestWh.slice().sort();
  const at = (level: number) => quantileOfSorted(sorted, level);
  if (at(0.05) <= 0) return null; // an empty set is the same on every bad day: no band to hit
  const truth = truthWh(walks, input, diceOf(seed * 7 + 5));
  return {
    input,
    in80: truth >= at(0.1) && truth <= at(0.9),
    in90: truth >= at(0.05) && truth <= at(0.95),
    below10: truth < at(0.1),
  };
}

const days: Kept[] = [];
for (let seed = FIRST_SEED; days.length < DAYS; seed++) {
  const day = kept(seed);
  if (day) days.push(day);
}
const share = (of: readonly Kept[], pick: (day: Kept) => boolean): number => of.filter(pick).length / of.length;

// Range of a right model on 2,000 days: 80 +- 1.8 and 90 +- 1.3 points (95 %, binomial); asked for are 77 to 83 and 87 to 93.
test(`on ${DAYS} vehicle-days out of the stated priors the bands hold what they say (from seed ${FIRST_SEED})`, () => {
  expect(share(days, (day) => day.in80)).toBeGreaterThan(0.77);
  expect(share(days, (day) => day.in80)).toBeLessThan(0.83);
  expect(share(days, (day) => day.in90)).toBeGreaterThan(0.87);
  expect(share(days, (day) => day.in90)).toBeLessThan(0.93);
  const worse = share(days, (day) => day.below10);
  expect(worse).toBeGreaterThan(0.08); // "on a bad day": one day in ten is worse
  expect(worse).toBeLessThan(0.12);
});

describe("and in every class", () => {
  const classes: Record<string, (input: DayInput) => boolean> = {
    "lithium set": (input) => input.store.peukertExponent === 1,
    "lead-acid set": (input) => input.store.peukertExponent > 1,
    "no roof": (input) => input.roof === null,
    "one tracker per face": (input) => input.roof?.link === "trackerPerFace",
    "plain switch": (input) => input.roof?.link === "series",
    "uses more than the physics": (input) => input.doubt.driveMiddle > 1.15,
    "start hardly known": (input) => input.doubt.startSdShare > 0.09,
    "start well known": (input) => input.doubt.startSdShare < 0.04,
    "charges on the way": (input) => input.segments.some((segment) => segment.chargerW > 0),
  };
  test.each(Object.entries(classes))("%s: at least 74 and 84 %%", (_name, isIn) => {
    const of = days.filter((day) => isIn(day.input));
    expect(of.length).toBeGreaterThan(250); // fewer would stray beyond six points by chance
    expect(share(of, (day) => day.in80)).toBeGreaterThanOrEqual(0.74);
    expect(share(of, (day) => day.in90)).toBeGreaterThanOrEqual(0.84);
  });
});
