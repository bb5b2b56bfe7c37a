import { readFleetFile } from "../records/fleet-file.js";
import type { Fleet } from "../records/index.js";
import { bad, good, type Outcome, type Problem } from "../units/outcome.js";
import { type CivilDate, isCivilDate } from "../units/zone.js";

export const REPLAY_FORMAT = "noonplug-replay/1";

/** What a day really was, where somebody knows: from a simulation, or from measuring instruments. Shares of the true usable charge. */
export interface TruthDay {
  readonly vehicleId: string;
  readonly date: CivilDate;
  /** As the day was, with everything that was put in. */
  readonly lowestShare: number;
  readonly homeShare: number;
  /** On leaving. */
  readonly startShare?: number;
  readonly levels?: readonly { readonly atUtcMs: number; readonly share: number }[];
  /** Sun taken from midnight to midnight, and what the drive line took at the battery terminals. */
  readonly sunWh?: number;
  readonly driveWh?: number;
  /** The same day if nothing had been put in after the evening before; without it evening forecasts are scored only where nothing was. */
  readonly ifNothingMore?: { readonly lowestShare: number; readonly homeShare: number };
}

/** Many days of a fleet, to be gone through as they came. */
export interface ReplayFile {
  readonly fleet: Fleet;
  /** First and last day to forecast; by default those of the entries. */
  readonly from: CivilDate | null;
  readonly to: CivilDate | null;
  /** "before": the sky of a date was said the evening before (default); "after": it was noted afterwards, so no forecast of that day knew it. */
  readonly skies: "before" | "after";
  readonly truth: readonly TruthDay[];
}

/** A replay file, or a plain fleet file, out of its text. */
export function readReplayFile(text: string): Outcome<ReplayFile> {
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    return bad({ code: "notJson", where: "" });
  }
  if (typeof raw !== "object" || raw === null) return bad({ code: "notAReplay", where: "" });
  const file = raw as Readonly<Record<string, unknown>>;
  if (file.format !== REPLAY_FORMAT) {
    const fleet = readFleetFile(raw);
    return fleet.ok ? good({ fleet: fleet.value, from: null, to: null, skies: "before", truth: [] }) : fleet;
  }
  const fleet = readFleetFile(file.fleet);
  const dates = (["from", "to"] as const).flatMap((where) => badDate(file[where], where));
  const truth = readTruth(file.truth ?? []);
  const skies = file.skies ?? "before";
  const words: Problem[] = skies === "before" || skies === "after" ? [] : [{ code: "notOneOf", where: "skies" }];
  if (!fleet.ok || !truth.ok || dates.length > 0 || words.length > 0) {
    const inFleet = fleet.ok ? [] : fleet.problems.map((each) => ({ ...each, where: `fleet.${each.where}` }));
    return bad(...inFleet, ...(truth.ok ? [] : truth.problems), ...dates, ...words);
  }
  return good({
    fleet: fleet.value,
    from: (file.from as CivilDate | undefined) ?? null,
    to: (file.to as CivilDate | undefined) ?? null,
    skies: skies as "before" | "after",
    truth: truth.value,
  });
}

const badDate = (value: unknown, where: string): Problem[] =>
  value === undefined || (typeof value === "string" && isCivilDate(value)) ? [] : [{ code: "badForm", where }];

function readTruth(raw: unknown): Outcome<readonly TruthDay[]> {
  if (!Array.isArray(raw)) return bad({ code: "wrongType", where: "truth" });
  const problems = raw.flatMap((day, i) => truthProblems(day, `truth.${i}`));
  return problems.length > 0 ? bad(...problems.slice(0, 50)) : good(raw as TruthDay[]);
}

const isShare = (value: unknown): boolean => typeof value === "number" && value >= 0 && value <= 1;
const isWh = (value: unknown): boolean => value === undefined || (typeof value === "number" && value >= 0);

function truthProblems(raw: unknown, where: string): Problem[] {
  if (typeof raw !== "object" || raw === null) return [{ code: "wrongType", where }];
  const day = raw as Readonly<Record<string, unknown>>;
  const bare = day.ifNothingMore as Readonly<Record<string, unknown>> | undefined;
  const levels = day.levels as unknown;
  const checks: readonly (readonly [string, boolean])[] = [
    ["vehicleId", typeof day.vehicleId === "string"],
    ["date", typeof day.date === "string" && isCivilDate(day.date)],
    ["lowestShare", isShare(day.lowestShare)],
    ["homeShare", isShare(day.homeShare)],
    ["startShare", day.startShare === undefined || isShare(day.startShare)],
    ["sunWh", isWh(day.sunWh)],
    ["driveWh", isWh(day.driveWh)],
    ["ifNothingMore", bare === undefined || (isShare(bare.lowestShare) && isShare(bare.homeShare))],
    ["levels", levels === undefined || (Array.isArray(levels) && levels.every(isLevel))],
  ];
  return checks.flatMap(([field, ok]) => (ok ? [] : [{ code: "wrongType", where: `${where}.${field}` }]));
}

const isLevel = (raw: unknown): boolean => {
  const level = raw as Readonly<Record<string, unknown>> | null;
  return typeof level === "object" && level !== null && typeof level.atUtcMs === "number" && isShare(level.share);
};
