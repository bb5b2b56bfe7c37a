import { type Charge, type DayLog, daysLater, onePerDay } from "../../calc/money/index.js";
import type { Problem } from "../../units/outcome.js";
import type { CivilDate } from "../../units/zone.js";
import { minuteOfClock } from "../clock.js";
import type { Entry, StandstillRecord, Vehicle } from "../index.js";

/** Units that were worked out and not read, by day, from whoever worked them out. */
export type Estimates = ReadonlyMap<CivilDate, { readonly gridKwh: number | null; readonly sunKwh: number | null }>;

export interface DaysCase {
  readonly vehicle: Vehicle;
  readonly entries: readonly Entry[];
  readonly standstills: readonly StandstillRecord[];
  readonly estimates?: Estimates;
}

/**
 * The log of one vehicle as the money sees it. Km are those typed, or the step of the odometer since the day before; units are those of
 * the meter, else an estimate that says so; what nobody wrote stays unknown.
 * Problems: `dayTwice`, `kmOdometerDiffer` (typed km and odometer differ by more than a fifth: the typed ones count).
 */
export function dayLogsOf(given: DaysCase): {
  readonly logs: readonly DayLog[];
  readonly problems: readonly Problem[];
} {
  const entries = given.entries
    .filter((entry) => entry.vehicleId === given.vehicle.id)
    .sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : a.id < b.id ? -1 : 1));
  const problems: Problem[] = [];
  const logs = joined(entries.map((entry, i) => ({ entry, log: logOf(entry, entries[i - 1], given, problems) })));
  const once = onePerDay([...logs, ...standingDays(given, new Set(entries.map((entry) => entry.date)))]);
  return { logs: once.logs, problems: [...problems, ...once.problems] };
}

interface Part {
  readonly entry: Entry;
  readonly log: DayLog;
}

/** A day written in several parts, one a shift, becomes one day; days of other ids stay apart, so that a day written twice is seen. */
function joined(parts: readonly Part[]): readonly DayLog[] {
  const isPart = ({ entry }: Part) => entry.id.startsWith(`${entry.vehicleId}/${entry.date}/`);
  const byDate = new Map<CivilDate, DayLog>();
  for (const { log } of parts.filter(isPart)) {
    const held = byDate.get(log.date);
    byDate.set(log.date, held ? both(held, log) : log);
  }
  return [...byDate.values(), ...parts.filter((part) => !isPart(part)).map(({ log }) => log)];
}

const LEAST_SURE: readonly DayLog["kmHow"][] = ["odometer", "typed", "trips", "filled"];

/** Two parts of a day: what one of them does not know of the road is not known of the day; charging is what either tells. */
function both(a: DayLog, b: DayLog): DayLog {
  const charges = a.charges === null && b.charges === null ? null : [...(a.charges ?? []), ...(b.charges ?? [])];
  const sun =
    a.sun && b.sun
      ? { kwh: a.sun.kwh + b.sun.kwh, how: a.sun.how === b.sun.how ? a.sun.how : ("estimated" as const) }
      : null;
  return {
    date: a.date,
    state: a.state === "worked" || b.state === "worked" ? "worked" : a.state,
    km: a.km === null || b.km === null ? null : a.km + b.km,
    kmHow: LEAST_SURE.indexOf(a.kmHow) > LEAST_SURE.indexOf(b.kmHow) ? a.kmHow : b.kmHow,
    charges,
    sun: sun ?? a.sun ?? b.sun,
  };
}

function logOf(entry: Entry, before: Entry | undefined, given: DaysCase, problems: Problem[]): DayLog {
  const { km, kmHow } = kmOf(entry, before, problems);
  // an estimate is of the whole day: only the first of its parts takes it
  const estimate = before?.date === entry.date ? undefined : given.estimates?.get(entry.date);
  const sunKwh = entry.sunKwh ?? estimate?.sunKwh ?? null;
  const stood = standstillOn(given.standstills, given.vehicle.id, entry.date);
  return {
    date: entry.date,
    state: (km ?? 0) > 0 || (km === null && !stood) ? "worked" : stood === "repair" ? "offRoad" : "rest",
    km,
    kmHow,
    charges: chargesOf(entry, estimate?.gridKwh ?? null, given.vehicle),
    sun: sunKwh === null ? null : { kwh: sunKwh, how: entry.sunKwh === null ? "estimated" : "measured" },
  };
}

/** Largest part by which typed km and odometer may differ before it is told: common practice, no source. */
const KM_DIFFER = 0.2;

function kmOf(entry: Entry, before: Entry | undefined, problems: Problem[]): Pick<DayLog, "km" | "kmHow"> {
  const step = odometerStep(entry, before);
  if (entry.km === null) return { km: step, kmHow: step === null ? "typed" : "odometer" };
  if (step === null) return { km: entry.km, kmHow: "typed" };
  const far = Math.abs(step - entry.km) > KM_DIFFER * Math.max(1, entry.km);
  if (far)
    problems.push({
      code: "kmOdometerDiffer",
      where: `entries.${entry.id}.km`,
      figures: { km: entry.km, odometerKm: step },
    });
  return { km: entry.km, kmHow: far ? "typed" : "odometer" };
}

/** Km since the part or the day before; null when that has no odometer, since the step would then be of several days. */
function odometerStep(entry: Entry, before: Entry | undefined): number | null {
  if (entry.odometerKm === null || before === undefined || before.odometerKm === null) return null;
  const step = entry.odometerKm - before.odometerKm;
  const next = before.date === entry.date || before.date === daysLater(entry.date, -1);
  return next && step >= 0 ? step : null;
}

function chargesOf(entry: Entry, estimateKwh: number | null, vehicle: Vehicle): readonly Charge[] | null {
  const kwh = entry.gridKwh ?? estimateKwh;
  if (entry.paidMinor === null && kwh === null && entry.pluggedAt === null) return null;
  if (kwh === 0 && (entry.paidMinor ?? 0) === 0) return [];
  const fromMinute = entry.pluggedAt === null ? null : minuteOfClock(entry.pluggedAt);
  const minutes = kwh === null ? null : chargeMinutes(kwh, vehicle);
  const toMinute = fromMinute === null || minutes === null ? null : (fromMinute + minutes) % 1440;
  const kwhHow = entry.gridKwh === null ? "estimated" : "meter";
  return [
    { kwh, kwhHow, fromMinute, toMinute, paidMinor: entry.paidMinor === null ? null : Math.round(entry.paidMinor) },
  ];
}

/** How long the vehicle's charger takes for so many units at the meter: at its rating throughout, a minute to a day. */
function chargeMinutes(kwh: number, vehicle: Vehicle): number {
  const atMeterKw = vehicle.charger.ratedW / vehicle.charger.efficiency / 1000;
  return Math.min(1439, Math.max(1, Math.round((kwh / atMeterKw) * 60)));
}

function standstillOn(
  records: readonly StandstillRecord[],
  vehicleId: string,
  date: CivilDate,
): "repair" | "rest" | null {
  const found = records.find(
    (each) => each.vehicleId === vehicleId && each.from <= date && (each.to === null || each.to >= date),
  );
  return found?.why ?? null;
}

/** Days of a standstill that have no entry of their own; an open one runs to the last written day. */
function standingDays(given: DaysCase, written: ReadonlySet<CivilDate>): readonly DayLog[] {
  const last = [...written].sort().at(-1);
  const days = new Map<CivilDate, DayLog>();
  for (const each of given.standstills) {
    if (each.vehicleId !== given.vehicle.id) continue;
    const to = each.to ?? last ?? each.from;
    for (let date = each.from; date <= to; date = daysLater(date, 1)) {
      if (written.has(date)) continue;
      const state = each.why === "repair" ? "offRoad" : "rest";
      days.set(date, { date, state, km: null, kmHow: "typed", charges: null, sun: null });
    }
  }
  return [...days.values()];
}
