import type { DayInput } from "../../calc/day/input.js";
import { type DayChange, withShade } from "../../calc/day/levers.js";
import type { LegPart, Round } from "../index.js";
import { answerInputOf } from "./answer-input.js";
import type { DayCase } from "./day.js";

/** The day's input with one thing changed: all legs longer, more weight all the way, an hour of shade, or a hill on the longest leg. */
export function changedInputOf(given: DayCase, change: DayChange): DayInput {
  const { vehicle } = given;
  switch (change.kind) {
    case "km":
      return answerInputOf({ ...given, rounds: given.rounds.map((round) => longer(round, change.by)) });
    case "kg":
      return answerInputOf({ ...given, vehicle: { ...vehicle, kerbKg: vehicle.kerbKg + change.by } });
    case "shadeHours":
      return withShade(answerInputOf(given), change.by);
    case "slopeDeg":
      return answerInputOf({
        ...given,
        rounds: given.rounds.map((round) => hillier(round, change.by)),
      });
  }
}

/** The same way, every leg longer by its share. */
function longer(round: Round, km: number): Round {
  const wholeKm = round.parts.reduce((sum, part) => sum + (part.kind === "leg" ? part.km : 0), 0);
  const by = wholeKm > 0 ? 1 + km / wholeKm : 1;
  const parts = round.parts.map((part) =>
    part.kind === "leg" ? { ...part, km: part.km * by, minutes: part.minutes * by } : part,
  );
  return { ...round, parts };
}

/** A hill in the longest leg: one kilometre up at that slope and one down, on a short leg its halves. */
function hillier(round: Round, deg: number): Round {
  const kms = round.parts.map((part) => (part.kind === "leg" ? part.km : -1));
  const longest = kms.indexOf(Math.max(...kms));
  return {
    ...round,
    parts: round.parts.flatMap((part, i) => (i === longest ? withHill(part as LegPart, deg) : [part])),
  };
}

function withHill(leg: LegPart, deg: number): LegPart[] {
  const sideKm = Math.min(1, leg.km / 2);
  if (!(sideKm > 0)) return [leg];
  const riseM = 1000 * sideKm * Math.sin((deg * Math.PI) / 180);
  const piece = (km: number): LegPart => {
    const by = km / leg.km;
    return { ...leg, km, minutes: leg.minutes * by, climbM: leg.climbM * by, dropM: leg.dropM * by };
  };
  const side = piece(sideKm);
  const up = { ...side, climbM: side.climbM + riseM };
  const down = { ...side, dropM: side.dropM + riseM };
  const restKm = leg.km - 2 * sideKm;
  return restKm > 0 ? [piece(restKm), up, down] : [up, down];
}
