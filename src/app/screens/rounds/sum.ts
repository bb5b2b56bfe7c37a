import type { Round, RoundPart } from "../../../records/index.js";
import { editWords } from "../../words/edit.js";
import { figures, joined } from "../../words/format.js";

export const kmText = (km: number): string => figures(km, Number.isInteger(km) || km >= 40 ? 0 : 1);

export interface RoundTotal {
  readonly km: number;
  readonly minutes: number;
  readonly climbM: number;
}
export const totalOf = (parts: readonly RoundPart[]): RoundTotal =>
  parts.reduce(
    (sum, part) => ({
      km: sum.km + (part.kind === "leg" ? part.km : 0),
      minutes: sum.minutes + part.minutes,
      climbM: sum.climbM + (part.kind === "leg" ? part.climbM : 0),
    }),
    { km: 0, minutes: 0, climbM: 0 },
  );

/** Length, time and climb in one line. */
export function roundSum(round: Pick<Round, "parts">): string {
  const words = editWords.now();
  const { km, minutes, climbM } = totalOf(round.parts);
  const whole = Math.round(minutes);
  const way = words.way(kmText(Math.round(km * 10) / 10), Math.floor(whole / 60), whole % 60);
  return joined(way, climbM > 0 && words.climb(figures(climbM)));
}
