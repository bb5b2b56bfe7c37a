import type { DayAnswer } from "../calc/day/answer.js";
import { type Lever, leversOf } from "../calc/day/levers.js";
import { planDay } from "../calc/day/plan-day.js";
import { type ComparedDay, compareDays } from "../calc/sizing/compare.js";
import type { Reading, Sky } from "../records/index.js";
import { answerInputOf } from "../records/map/answer-input.js";
import { changedInputOf } from "../records/map/change.js";
import type { DayCase } from "../records/map/day.js";

export interface Moved {
  readonly answer: DayAnswer;
  readonly levers: readonly Lever[];
}

/** What the answer about a day stands on, and what each km, kg, hour of shade and degree of slope would cost. */
export function moves(given: DayCase): Moved {
  const answer = planDay(answerInputOf(given));
  return { answer, levers: leversOf(answer, (change) => planDay(changedInputOf(given, change))) };
}

/** One way to build or load a vehicle; records/map/variants makes them. */
export interface CompareAsk {
  readonly name: string;
  readonly given: DayCase;
}

/** Variants of a vehicle on the same day, the first one being what the others are held against. */
export const compare = (sides: readonly CompareAsk[]): ComparedDay[] =>
  compareDays(sides.map(({ name, given }) => ({ name, input: answerInputOf(given) })));

/** How far a full set goes above its reserve, likely, with the way of the round. [km] */
export interface Reach {
  readonly load: "empty" | "full";
  readonly noSun: number;
  readonly dark: number;
  readonly bright: number;
}

/** The ranges of a kit sheet: empty and loaded, without sun, on a dark and on a bright day. */
export const reaches = (given: DayCase): Reach[] =>
  (["empty", "full"] as const).map((load) => {
    const vehicle = { ...given.vehicle, usual: { ...given.vehicle.usual, loadClass: load } };
    const day: DayCase = { ...given, vehicle, shifts: [], readings: [fullNow(given)], learned: undefined };
    const bare: DayCase = { ...day, vehicle: { ...vehicle, roof: { ...vehicle.roof, faces: [] } } };
    const under = (value: "dark" | "bright") => reachOf({ ...day, skies: [skyOf(given, value)] });
    return { load, noSun: reachOf(bare), dark: under("dark"), bright: under("bright") };
  });

function reachOf(given: DayCase): number {
  const { km, kmLeft } = planDay(answerInputOf(given));
  return Math.max(0, km + kmLeft.p50);
}

const fullNow = ({ vehicle, nowUtcMs }: DayCase): Reading => ({
  id: `${vehicle.id}/full`,
  v: 1,
  vehicleId: vehicle.id,
  atUtcMs: nowUtcMs,
  kind: "full",
  value: 0,
  restedMin: null,
  perBlock: false,
});

const skyOf = ({ yard, date }: DayCase, value: "dark" | "bright"): Sky => ({
  id: `${yard.id}/${date}`,
  v: 1,
  yardId: yard.id,
  date,
  cover: { kind: "three", value },
  airMinC: null,
  airMaxC: null,
  windMs: null,
  wet: false,
  haze: null,
});
