import {
  type Battery,
  type CareItem,
  careOf,
  fullCycles,
  healthAfter,
  levelFromReading,
  rainflow,
  type SetLife,
  type Span,
  setLife,
} from "../../calc/battery/index.js";
import { type CivilDate, civilDate, daysBetween, plusDays } from "../../units/zone.js";
import type { CareDone, Entry, Reading, Sky, Vehicle, Yard } from "../index.js";
import { batteryOf } from "./battery.js";
import { meanAirC, skiesByDate } from "./weather.js";

export interface CareCase {
  readonly vehicle: Vehicle;
  readonly yard: Yard;
  readonly skies: readonly Sky[];
  readonly entries: readonly Entry[];
  readonly readings: readonly Reading[];
  readonly cares: readonly CareDone[];
  readonly nowUtcMs: number;
}

/** How a set has been worked, what it asks for, and how long it should last. */
export interface SetCare {
  readonly due: readonly CareItem[];
  /** Last looks at the water and equalising charges that were written in. */
  readonly lastDone: { readonly [K in CareDone["what"]]: CivilDate | null };
  /** Null where the log shows no full charge. */
  readonly daysSinceFull: number | null;
  /** Through-put in full cycles, from the levels in the log; each cycle counted by its depth. */
  readonly cycles: number;
  readonly levelDays: number;
  readonly from: CivilDate | null;
  readonly km: number;
  /** Share of the rated charge left; null where neither a typed health nor the age of the set is known. */
  readonly health: Span | null;
  readonly healthFrom: "typed" | "age" | null;
  /** Null until the log shows a usual day. */
  readonly life: SetLife | null;
}

/** A level on the clock of the log: day, and whether before or after the round. */
interface Seen {
  readonly date: CivilDate;
  readonly evening: boolean;
  readonly share: number;
}

/** A typed health is a figure off a tester or a guess at the bench: five points either way (common practice, no source). */
const TYPED_DOUBT = 0.05;
const FULL_SHARE = 0.98;
/** Days with a level before and after the round that make a usual day. */
const USUAL_DAYS = 5;

export function setCareOf(given: CareCase): SetCare {
  const { vehicle, yard, nowUtcMs } = given;
  const battery = batteryOf(vehicle);
  const today = civilDate(nowUtcMs, yard.zone);
  const seen = levelsSeen(given, battery).filter(({ date }) => date <= today);
  const fullOn = seen.findLast(({ share }) => share >= FULL_SHARE)?.date ?? null;
  const daysSinceFull = fullOn === null ? null : daysBetween(fullOn, today);
  const own = given.entries.filter((entry) => entry.vehicleId === vehicle.id);
  const use = usualDay(given, seen, own);
  const { installedOn } = vehicle.battery;
  const typed = !vehicle.guesses.includes("battery.health");
  const age = installedOn === null ? null : Math.max(0, daysBetween(installedOn, today));
  const health = typed ? typedHealth(battery.health) : use && age !== null ? healthAfter(battery, use, age) : null;
  const lastDone = { water: lastCare(given, "water"), equalise: lastCare(given, "equalise") };
  return {
    lastDone,
    due: careOf(battery, {
      daysSinceFull,
      daysSinceWater: lastDone.water === null ? null : daysBetween(lastDone.water, today),
      fullChargeEveryDays: vehicle.battery.fullChargeEveryDays,
      cellC: meanAirC(yard, skiesByDate(given.skies, yard.id), nowUtcMs),
      share: seen.at(-1)?.share ?? null,
    }),
    daysSinceFull,
    cycles: fullCycles(rainflow(seen.map(({ share }) => share))),
    levelDays: new Set(seen.map(({ date }) => date)).size,
    from: seen[0]?.date ?? null,
    km: own.reduce((sum, { km }) => sum + (km ?? 0), 0),
    health,
    healthFrom: health === null ? null : typed ? "typed" : "age",
    life: use && health ? setLife({ ...battery, health: health.likely }, use, { today }) : null,
  };
}

const lastCare = ({ vehicle, cares }: CareCase, what: CareDone["what"]): CivilDate | null =>
  cares
    .filter((care) => care.vehicleId === vehicle.id && care.what === what)
    .reduce<CivilDate | null>((last, { date }) => (last && last >= date ? last : date), null);

const typedHealth = (health: number): Span => ({
  low: Math.max(0.1, health - TYPED_DOUBT),
  likely: health,
  high: Math.min(1, health + TYPED_DOUBT),
});

/**
 * Readings, and the levels on coming home, in order; of several on one side of a day the last counts. Where nobody read the gauge in the
 * morning, the units of the night before are added to the level of the evening.
 */
function levelsSeen({ vehicle, yard, entries, readings }: CareCase, battery: Battery): readonly Seen[] {
  const { bars } = vehicle.gauge;
  const found = new Map<string, Seen>();
  const put = (seen: Seen) => found.set(`${seen.date} ${seen.evening ? 1 : 0}`, seen);
  for (const { vehicleId, kind, value, restedMin, perBlock, atUtcMs } of readings) {
    if (vehicleId !== vehicle.id) continue;
    const level = levelFromReading({ kind, value, restedMin, perBlock: perBlock || null, bars }, battery);
    if (level.ok && level.value.usable)
      put({ date: civilDate(atUtcMs, yard.zone), evening: false, share: level.value.share });
  }
  const { nominalV, ratedAh, health } = battery;
  const sharePerKwh = (1000 * vehicle.charger.efficiency) / (nominalV * ratedAh * health);
  for (const { vehicleId, date, level, gridKwh } of entries) {
    if (vehicleId !== vehicle.id || level === null) continue;
    const { kind, value, perBlock } = level;
    const read = levelFromReading({ kind, value, restedMin: null, perBlock: perBlock || null, bars }, battery);
    if (!read.ok) continue;
    const { share } = read.value;
    put({ date, evening: true, share });
    const next = plusDays(date, 1);
    if (gridKwh !== null && gridKwh > 0 && !found.has(`${next} 0`))
      put({ date: next, evening: false, share: Math.min(1, share + gridKwh * sharePerKwh) });
  }
  const order = ({ date, evening }: Seen) => `${date} ${evening ? 1 : 0}`;
  return [...found.values()].sort((a, b) => (order(a) < order(b) ? -1 : 1));
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** A usual day of the log as the ageing models ask for it; null while too few days show a level before and after the round. */
function usualDay({ vehicle, yard }: CareCase, seen: readonly Seen[], entries: readonly Entry[]) {
  const mornings = new Map(seen.filter(({ evening }) => !evening).map(({ date, share }) => [date, share]));
  const days = seen.flatMap(({ date, evening, share }) => {
    const morning = mornings.get(date);
    return evening && morning !== undefined && morning > share ? [{ morning, share }] : [];
  });
  if (days.length < USUAL_DAYS) return null;
  const { nominalV, ratedAh } = vehicle.battery;
  const fulls = [...new Set(seen.filter(({ share }) => share >= FULL_SHARE).map(({ date }) => date))];
  const [first, last] = [fulls[0], fulls.at(-1)];
  const kms = entries.flatMap(({ km }) => (km === null ? [] : [km]));
  return {
    levels: [mean(days.map(({ morning }) => morning)), mean(days.map(({ share }) => share))],
    cellC: mean([...yard.airMinCByMonth, ...yard.airMaxCByMonth]),
    chargeRatePerH: vehicle.charger.ratedW / (nominalV * ratedAh),
    daysBetweenFull: first && last && fulls.length > 1 ? daysBetween(first, last) / (fulls.length - 1) : null,
    kmPerDay: kms.length > 0 ? mean(kms) : 0,
  };
}
