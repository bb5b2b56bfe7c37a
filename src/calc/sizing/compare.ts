import type { DayAnswer, LegNote } from "../day/answer.js";
import type { DayInput } from "../day/input.js";
import { planDay } from "../day/plan-day.js";

/** One way to build or load a vehicle, on the same round under the same sky. */
export interface CompareSide<Name extends string = string> {
  readonly name: Name;
  readonly input: DayInput;
}

export interface ComparedDay<Name extends string = string> {
  readonly name: Name;
  readonly answer: DayAnswer;
  /** The leg that asks most, where one is slowed, too steep or too hot. */
  readonly hardest: LegNote | null;
  /** Against the first side, likely: km left, sun taken, units to top up, minutes on the road. */
  readonly moreKm: number;
  readonly moreSunWh: number;
  readonly moreGridKwh: number;
  readonly moreMinutes: number;
}

const WORST_FIRST: readonly LegNote["problem"][] = ["noSuchRoad", "tooSteep", "hot30min", "slower"];

/** Two or three variants of one vehicle side by side; the first is what the others are held against. All share the first one's dice. */
export function compareDays<Name extends string>(sides: readonly CompareSide<Name>[]): ComparedDay<Name>[] {
  const seed = sides[0]?.input.seed ?? 0;
  const answers = sides.map(({ input }) => planDay({ ...input, seed }));
  const first = answers[0];
  return sides.map(({ name }, i) => {
    const answer = answers[i] as DayAnswer;
    const than = first ?? answer;
    return {
      name,
      answer,
      hardest: hardestOf(answer),
      moreKm: answer.kmLeft.p50 - than.kmLeft.p50,
      moreSunWh: answer.sunTaken.p50 - than.sunTaken.p50,
      moreGridKwh: answer.topUp.gridKwh - than.topUp.gridKwh,
      moreMinutes: answer.lateMinutes - than.lateMinutes,
    };
  });
}

function hardestOf(answer: DayAnswer): LegNote | null {
  for (const problem of WORST_FIRST) {
    const note = answer.legNotes.find((each) => each.problem === problem);
    if (note) return note;
  }
  return null;
}
