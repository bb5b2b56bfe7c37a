import { acceptanceW, type StoreModel, storedShare } from "../../src/calc/battery/index.js";
import type { DaySegment } from "../../src/calc/day/segments.js";
import { type Roof, roofW } from "../../src/calc/roof/index.js";
import { lightUnder, sunInstant } from "../../src/calc/sun/index.js";
import type { Reading, Shift, Sky } from "../../src/records/index.js";
import { dayInputOf } from "../../src/records/map/day.js";
import { HOUR_MS, MINUTE_MS } from "../../src/units/numbers.js";
import { type CivilDate, civilDate, minuteOfDay, utcMsAt } from "../../src/units/zone.js";
import { examples } from "../records/examples.js";
import { type DayChance, type Maker, PLUG_MINUTE, type Setting } from "./maker.js";
import { oktaOfShare, type WorldDice } from "./world.js";

export interface TruthWalk {
  readonly maker: Maker;
  readonly setting: Setting;
  readonly shift: Shift;
  readonly d: number;
  readonly chance: DayChance;
  readonly store: StoreModel;
  readonly start: number;
  readonly fromUtcMs: number;
}

export interface WalkedDay {
  readonly lowestShare: number;
  readonly homeShare: number;
  readonly homeUtcMs: number;
  /** When the plug goes in, at nine in the evening. */
  readonly plugShare: number;
  readonly km: number;
  readonly sunWh: number;
  readonly driveWh: number;
  readonly levels: { readonly atUtcMs: number; readonly share: number }[];
}

export const STEP_MS = 10 * MINUTE_MS;

/** A true day in ten-minute steps, with the vehicle's own factors and the day's own chance. */
export function walkTruth(walk: TruthWalk): WalkedDay {
  const { maker, setting, shift, d, chance, store, start, fromUtcMs } = walk;
  const { vehicle, slow } = maker;
  const date = setting.dates[d] as CivilDate;
  const overloaded =
    chance.overload === 1
      ? shift
      : { ...shift, loadKg: LOAD_KG[shift.loadClass] * vehicle.fullLoadKg * chance.overload };
  const input = dayInputOf({
    yard: setting.yard,
    vehicle,
    rounds: maker.rounds,
    shifts: [overloaded],
    skies: setting.wet[d] ? [{ ...(examples.sky as Sky), id: "w", yardId: setting.yard.id, date, wet: true }] : [],
    readings: [
      { ...(examples.reading as Reading), vehicleId: vehicle.id, atUtcMs: fromUtcMs, kind: "percent", value: 50 },
    ],
    date,
    nowUtcMs: fromUtcMs,
    draws: 2,
  });
  const driver = shift.driver === "second" ? slow.driverB : 1;
  const wet = setting.wet[d] ? slow.wet : 1;
  const drive = slow.drive * Math.exp(slow.driftPerDay * d) * driver * wet * chance.drive * chance.km;
  let levelWh = start * store.usableWh;
  let lowestWh = Number.POSITIVE_INFINITY;
  let homeShare = start;
  let homeUtcMs = fromUtcMs;
  let plugShare = start;
  const plugUtcMs = utcMsAt(date, PLUG_MINUTE, setting.yard.zone);
  let [sunWh, driveWh] = [0, 0];
  const levels: { atUtcMs: number; share: number }[] = [];
  const dayFrom = utcMsAt(date, 0, setting.yard.zone);
  for (const segment of input.segments) {
    for (let at = segment.fromUtcMs; at < segment.toUtcMs; at += STEP_MS) {
      const to = Math.min(segment.toUtcMs, at + STEP_MS);
      const hours = (to - at) / HOUR_MS;
      const sunW = trueSunW((at + to) / 2, segment, input.roof, walk);
      const driveW = Math.max(0, segment.drainW - segment.regenW) * drive;
      const otherW = segment.otherW * slow.other;
      const spareW = sunW - driveW - otherW;
      let takenW = sunW;
      if (spareW > 0) {
        const share = Math.min(1, levelWh / store.usableWh);
        const intoW = Math.min(spareW, acceptanceW(store, share));
        takenW = driveW + otherW + intoW;
        levelWh = Math.min(store.usableWh, levelWh + intoW * storedShare(store, share) * hours);
      } else {
        const peukert = Math.max(1, -spareW / store.peukertRatedW) ** (store.peukertExponent - 1);
        levelWh = Math.max(0, levelWh + spareW * (1 - store.lossPerW * spareW) * peukert * hours);
      }
      levelWh = Math.max(0, levelWh - store.selfDischargeW * hours);
      if (at >= dayFrom) {
        sunWh += Math.min(takenW, sunW) * hours;
        driveWh += driveW * hours;
      }
      if (segment.onShift) lowestWh = Math.min(lowestWh, levelWh);
      if (segment.onShift) [homeShare, homeUtcMs] = [levelWh / store.usableWh, to];
      if (to <= plugUtcMs) plugShare = levelWh / store.usableWh;
      if (to % HOUR_MS === 0) levels.push({ atUtcMs: to, share: levelWh / store.usableWh });
    }
  }
  const km = input.segments.reduce((sum, segment) => sum + segment.km, 0) * chance.km;
  return {
    lowestShare: Math.min(start, lowestWh / store.usableWh),
    homeShare,
    homeUtcMs,
    plugShare,
    km,
    sunWh,
    driveWh,
    levels,
  };
}
export const LOAD_KG = { empty: 0, half: 0.5, full: 1 } as const;

export function trueSunW(
  utcMs: number,
  segment: DaySegment,
  roof: Roof | null,
  { maker, setting, d }: TruthWalk,
): number {
  const { yard } = setting;
  const site = { latDeg: yard.latDeg, lonDeg: yard.lonDeg, altitudeM: yard.altitudeM };
  const sun = roof ? sunInstant(utcMs, site, 3.5) : null;
  if (!roof || !sun) return 0;
  const today = civilDate(utcMs, yard.zone) === setting.dates[d] ? d : Math.max(0, d - 1);
  const share = setting.skies[today]?.clearByHour[Math.floor(minuteOfDay(utcMs, yard.zone) / 60)] ?? 0.6;
  const built = segment.kind === "drive" && segment.directBlocked > 0.1 ? maker.slow.shade : 1;
  const at = {
    headingDeg: segment.headingDeg,
    airC: segment.airC,
    windMs: segment.windMs,
    directBlocked: segment.directBlocked,
    diffuseBlocked: segment.diffuseBlocked,
    albedo: 0.2,
  };
  return roofW(sun, lightUnder(sun, oktaOfShare(share)), roof, at) * maker.slow.roof * built;
}

export interface NightTruth {
  readonly toShare: number;
  readonly plugged: boolean;
  readonly gridKwh: number;
}

/** Mostly charged full; sometimes cut short, sometimes not plugged in where more than half is left. */
export function nightCharge(maker: Maker, store: StoreModel, fromShare: number, dice: WorldDice): NightTruth {
  const luck = dice.uniform();
  if (luck < 0.08 && fromShare > 0.5) return { toShare: fromShare, plugged: false, gridKwh: 0 };
  const full = maker.vehicle.battery.chemistry === "lfp" ? 0.99 + 0.01 * dice.uniform() : 0.94 + 0.06 * dice.uniform();
  const toShare =
    luck > 0.9 ? fromShare + (full - fromShare) * (0.4 + 0.5 * dice.uniform()) : Math.max(full, fromShare);
  let terminalWh = 0;
  for (let k = 0; k < 50; k++)
    terminalWh +=
      ((toShare - fromShare) * store.usableWh) /
      50 /
      storedShare(store, fromShare + ((k + 0.5) * (toShare - fromShare)) / 50);
  return { toShare, plugged: true, gridKwh: terminalWh / maker.vehicle.charger.efficiency / maker.slow.charger / 1000 };
}
