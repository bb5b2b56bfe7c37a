import type { DayInput } from "../../calc/day/input.js";
import { type DayChange, withShade } from "../../calc/day/levers.js";
import type { LegPart, Round } from "../index.js";
import { type DayCase, dayInputOf } from "./day.js";

/** The day's input with one thing changed: a longer longest leg, more weight all the way, an hour of shade, or a hill on the longest leg. */
export function changedInputOf(given: DayCase, change: DayChange): DayInput {
  const { vehicle } = given;
  switch (change.kind) {
    case "km":
      return dayInputOf({
        ...given,
        rounds: given.rounds.map((round) => onLongest(round, (leg) => longer(leg, change.by))),
      });
    case "kg":
      return dayInputOf({ ...given, vehicle: { ...vehicle, kerbKg: vehicle.kerbKg + change.by } });
    case "shadeHours":
      return withShade(dayInputOf(given), change.by);
    case "slopeDeg":
      return dayInputOf({
        ...given,
        rounds: given.rounds.map((round) => onLongest(round, (leg) => hillier(leg, change.by))),
      });
  }
}

const longer = (leg: LegPart, km: number): LegPart => ({
  ...leg,
  km: leg.km + km,
  minutes: leg.minutes * (1 + km / Math.max(leg.km, 0.1)),
});

function hillier(leg: LegPart, deg: number): LegPart {
  const riseM = 1000 * Math.tan((deg * Math.PI) / 180) * Math.min(1, leg.km);
  return { ...leg, climbM: leg.climbM + riseM, dropM: leg.dropM + riseM };
}

function onLongest(round: Round, by: (leg: LegPart) => LegPart): Round {
  const kms = round.parts.map((part) => (part.kind === "leg" ? part.km : -1));
  const longest = kms.indexOf(Math.max(...kms));
  return { ...round, parts: round.parts.map((part, i) => (i === longest && part.kind === "leg" ? by(part) : part)) };
}
