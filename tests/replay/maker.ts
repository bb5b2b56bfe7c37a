import type { Round, Sky, Vehicle, Yard } from "../../src/records/index.js";
import type { CivilDate } from "../../src/units/zone.js";
import { examples } from "../records/examples.js";
import type { Climate, TrueSky, WorldDice } from "./world.js";

/** What is true of a vehicle for weeks; the learning is to find it. */
export interface SlowTruth {
  readonly drive: number;
  readonly driftPerDay: number;
  readonly driverB: number;
  readonly wet: number;
  readonly roof: number;
  readonly shade: number;
  /** Share of the record's health. */
  readonly capacity: number;
  readonly charger: number;
  readonly gaugeOffset: number;
  readonly gaugeScale: number;
  readonly other: number;
}

export interface WorldWish {
  readonly seed: number;
  readonly vehicles: number;
  readonly days: number;
  readonly climate?: Climate;
  /** "said": a person says each evening what tomorrow will be, right three times in four; "never": nobody ever says. */
  readonly skySaid?: "said" | "never";
  readonly mistypedShare?: number;
  readonly metered?: boolean;
}

export const FROM = "2027-01-04";
export const LEAVE_MINUTE = 6 * 60 + 30;
export const PLUG_MINUTE = 21 * 60;

export interface Maker {
  readonly vehicle: Vehicle;
  readonly rounds: readonly Round[];
  readonly slow: SlowTruth;
  readonly gridMeter: boolean;
  readonly sunMeter: boolean;
}

/** Draws a vehicle and its slow truth from the stated priors: drive factor 15 %, health 0.73 to 0.98, roof 20 %, driver 6 %. */
export function newMaker(id: string, i: number, yard: Yard, dice: WorldDice, wish: WorldWish): Maker {
  const base = examples.vehicle as Vehicle;
  const lead = i % 3 === 2;
  const trueHealth = 0.73 + 0.25 * dice.uniform();
  const typed = i % 3 !== 0;
  const said = Math.min(1, Math.max(0.6, Math.round(100 * trueHealth * dice.logNormal(typed ? 0.05 : 0.08)) / 100));
  const gauge = lead
    ? ({ kind: "volts", bars: null } as const)
    : i % 3 === 1
      ? ({ kind: "bars", bars: 10 } as const)
      : ({ kind: "percent", bars: null } as const);
  const battery = lead
    ? {
        ...base.battery,
        chemistry: "floodedLead" as const,
        nominalV: 48,
        seriesCount: 24,
        ratedAh: 160,
        resistanceOhm: 0.03,
        peukertExponent: 1.15,
      }
    : base.battery;
  const vehicle: Vehicle = {
    ...base,
    id,
    plate: `${i + 1}`,
    yardId: yard.id,
    gauge,
    battery: { ...battery, health: said },
    usual: { roundId: null, leaveMinute: LEAVE_MINUTE, loadClass: "half" },
    learned: null,
    guesses: typed ? [] : ["battery.health"],
  };
  const slow: SlowTruth = {
    drive: dice.logNormal(0.15),
    driftPerDay: 0.0012 * dice.normal(),
    driverB: dice.logNormal(0.06),
    wet: 1.05 * dice.logNormal(0.03),
    roof: dice.logNormal(0.2),
    shade: dice.logNormal(0.1),
    capacity: trueHealth / said,
    charger: dice.logNormal(0.03),
    gaugeOffset: lead ? 0 : 0.02 * dice.normal(),
    gaugeScale: lead ? 1 : dice.logNormal(0.03),
    other: dice.logNormal(0.2),
  };
  return {
    vehicle,
    rounds: roundsFor(vehicle, dice),
    slow,
    gridMeter: wish.metered ?? i % 2 === 0,
    sunMeter: wish.metered ?? i % 5 < 2,
  };
}

/** Two rounds, so long that a healthy set comes home with a fifth to a third left. */
export function roundsFor(vehicle: Vehicle, dice: WorldDice): Round[] {
  const base = examples.round as Round;
  const packWh = vehicle.battery.nominalV * vehicle.battery.ratedAh * vehicle.battery.health;
  return [0, 1].map((n) => {
    const loops = Math.max(1, Math.round(((0.62 + 0.16 * dice.uniform()) * packWh) / 1150));
    const parts = Array.from({ length: loops }, () => base.parts).flat();
    const surroundings = n === 0 ? ("town" as const) : ("openRoad" as const);
    return {
      ...base,
      id: `${vehicle.id}-r${n}`,
      yardId: vehicle.yardId,
      parts: parts.map((part) =>
        part.kind === "leg"
          ? { ...part, surroundings }
          : { ...part, payloadChangeKg: 0, minutes: 45, shade: n === 0 ? ("part" as const) : ("open" as const) },
      ),
    };
  });
}

export interface Setting {
  readonly dates: readonly CivilDate[];
  readonly skies: readonly TrueSky[];
  readonly wet: readonly boolean[];
  readonly said: readonly Sky[];
  readonly yard: Yard;
  readonly dice: WorldDice;
  readonly wish: WorldWish;
}

/** The day's own chance: knows nobody. */
export interface DayChance {
  readonly drive: number;
  readonly km: number;
  readonly overload: number;
}
