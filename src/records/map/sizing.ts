import { storeModel } from "../../calc/battery/index.js";
import type { DaySegment } from "../../calc/day/segments.js";
import { ROOF_GUESS, type Roof } from "../../calc/roof/index.js";
import type { SizingCase, SizingMonth } from "../../calc/sizing/index.js";
import { ALBEDO, HAZE } from "../../calc/sun/index.js";
import { seedOf } from "../../units/dice.js";
import { DAY_MS, HOUR_MS } from "../../units/numbers.js";
import { bad, good, type Outcome } from "../../units/outcome.js";
import type { Round, Vehicle, Yard } from "../index.js";
import { PANEL_KG_PER_W, SET_KG_PER_WH } from "../kit-weights.js";
import { batteryOf } from "./battery.js";
import { parked } from "./day.js";
import { siteOf } from "./place.js";
import { roofOf } from "./roof.js";
import { type Ground, LOAD_SHARE, runShift, type ShiftRun } from "./shift.js";
import { meanAirC } from "./weather.js";

/** What a kit is sized for: one vehicle on one round, day after day. */
export interface KitQuestion {
  readonly yard: Yard;
  readonly vehicle: Vehicle;
  readonly round: Round;
  /** 1 to 7. */
  readonly workDaysPerWeek: number;
  readonly plugTo: "need" | "full";
  /** Years of weather to draw. */
  readonly years: number;
}

/** Sizes tried, over what the vehicle has. */
const ROOF_STEPS = [0, 0.5, 0.75, 1, 1.25, 1.5] as const;
const PACK_STEPS = [2 / 3, 1, 4 / 3, 5 / 3, 2] as const;
/** Roof of a vehicle that has none yet: common practice, no source. */
const FIRST_ROOF_W = 420;

/** Days of the months of a common year; leap years do not change a kit. */
const YEAR = 2027;
const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
const EQUAL_SKY = { bright: 1, mixed: 1, dark: 1 };

/** Records of a vehicle, a round and a yard, laid out for sizing; a round of more than a day cannot be repeated every day. */
export function sizingCaseOf(question: KitQuestion): Outcome<SizingCase> {
  const { yard, vehicle, round } = question;
  const legs = round.parts.filter((part) => part.kind === "leg");
  if (legs.length === 0) return bad({ code: "noLeg", where: "round.parts" });
  const ground: Ground = { yard, vehicle, skies: new Map() };
  const runs = MONTH_DAYS.map((_, month) => runOn(question, ground, month));
  if (runs.some((run) => run.homeUtcMs - run.leaveUtcMs >= DAY_MS))
    return bad({ code: "roundTooLong", where: "round.parts" });
  const packWh = vehicle.battery.nominalV * vehicle.battery.ratedAh;
  const roof = roofOf(vehicle) ?? firstRoof(vehicle);
  const roofW = roof.faces.reduce((sum, face) => sum + face.ratedW, 0);
  return good({
    site: siteOf(yard),
    albedo: ALBEDO[yard.groundClass],
    months: runs.map((run, month) => monthOf(question, ground, run, month)),
    roof,
    roofW: ROOF_STEPS.map((step) => Math.round((step * roofW) / 5) * 5),
    packWh: PACK_STEPS.map((step) => Math.round((step * packWh) / 10) * 10),
    driveFactor: driveFactorOf(question, ground, { roofW, packWh }),
    reserveShare: vehicle.battery.reserveShare,
    charger: { ratedW: vehicle.charger.ratedW, efficiency: vehicle.charger.efficiency },
    fullChargeEveryDays: vehicle.battery.fullChargeEveryDays,
    workDaysPerWeek: question.workDaysPerWeek,
    plugTo: question.plugTo,
    years: question.years,
    seed: seedOf(vehicle.id),
  });
}

function runOn({ vehicle, round }: KitQuestion, ground: Ground, month: number): ShiftRun {
  const plan = {
    date: `${YEAR}-${String(month + 1).padStart(2, "0")}-15`,
    round,
    leaveMinute: vehicle.usual.leaveMinute,
    loadKg: LOAD_SHARE[vehicle.usual.loadClass] * vehicle.fullLoadKg,
  };
  return runShift(plan, ground);
}

function monthOf({ yard, vehicle }: KitQuestion, ground: Ground, run: ShiftRun, month: number): SizingMonth {
  const { homeUtcMs, leaveUtcMs, segments } = run;
  const homeBefore = homeUtcMs - DAY_MS;
  const battery = batteryOf(vehicle);
  const airC = meanAirC(yard, ground.skies, leaveUtcMs);
  return {
    days: MONTH_DAYS[month] as number,
    workDay: [...parked(homeBefore, leaveUtcMs, ground), ...segments.map(unplugged)],
    restDay: parked(homeBefore, homeUtcMs, ground),
    usualSky: yard.usualSkyByMonth?.[month] ?? EQUAL_SKY,
    linkeTurbidity: HAZE[yard.hazeByMonth[month] ?? "country"],
    storeOf: (packWh) => {
      const size = packWh / (battery.nominalV * battery.ratedAh);
      return storeModel(
        { ...battery, ratedAh: battery.ratedAh * size, resistanceOhm: battery.resistanceOhm / size },
        airC,
      );
    },
  };
}

/** A socket on the way is a plug as well: the question is how far the sun goes without any. */
const unplugged = (segment: DaySegment): DaySegment => ({ ...segment, chargerW: 0 });

/** Heavier kits use more: the drive energy of a day as a straight line of the weight, times what the vehicle's own days taught. */
function driveFactorOf(
  question: KitQuestion,
  ground: Ground,
  now: { readonly roofW: number; readonly packWh: number },
): (roofW: number, packWh: number) => number {
  const { vehicle } = question;
  const hundredKg = { ...ground, vehicle: { ...vehicle, kerbKg: vehicle.kerbKg + 100 } };
  const base = driveWh(runOn(question, ground, 0));
  const perKg = base > 0 ? (driveWh(runOn(question, hundredKg, 0)) / base - 1) / 100 : 0;
  const learned = vehicle.learned?.driveFactor ?? 1;
  const perWh = SET_KG_PER_WH[vehicle.battery.chemistry];
  // a roof that is to come is not in the kerb weight yet
  const fittedW = vehicle.roof.faces.length > 0 ? now.roofW : 0;
  return (roofW, packWh) =>
    learned * (1 + perKg * ((roofW - fittedW) * PANEL_KG_PER_W + (packWh - now.packWh) * perWh));
}

const driveWh = (run: ShiftRun): number =>
  run.segments.reduce(
    (sum, { drainW, regenW, fromUtcMs, toUtcMs }) => sum + ((drainW - regenW) * (toUtcMs - fromUtcMs)) / HOUR_MS,
    0,
  );

const firstRoof = (vehicle: Vehicle): Roof => ({
  faces: [{ ratedW: FIRST_ROOF_W, tiltDeg: 0, sideDeg: 0, gammaPerC: ROOF_GUESS.gammaPerC }],
  link: "trackerPerFace",
  controllerEfficiency: ROOF_GUESS.controllerEfficiency.trackerPerFace,
  soilingShare: 0.02,
  wireShare: ROOF_GUESS.wireShare,
  mismatchShare: ROOF_GUESS.mismatchShare,
  mount: ROOF_GUESS.mount,
  batteryNominalV: vehicle.battery.nominalV,
});
