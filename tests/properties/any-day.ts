import { type Battery, storeModel } from "../../src/calc/battery/index.js";
import { type DayInput, PRIOR_DOUBT } from "../../src/calc/day/input.js";
import type { DaySegment } from "../../src/calc/day/segments.js";
import { ROOF_GUESS, type Roof, type RoofLink } from "../../src/calc/roof/index.js";
import { coverDay, type SkyWord } from "../../src/calc/sun/index.js";
import { type Dice, diceOf } from "../../src/units/dice.js";
import { HOUR_MS, MINUTE_MS } from "../../src/units/numbers.js";

/** Random vehicle-days for the calculation itself; the same seed gives the same day. */
export interface AnyDay {
  readonly input: DayInput;
  readonly dice: Dice;
}

const from = <T>(dice: Dice, list: readonly T[]): T => list[Math.floor(dice() * list.length)] as T;
const between = (dice: Dice, low: number, high: number): number => low + (high - low) * dice();

export interface Bounds {
  /** Keeps to days that a fleet might see, instead of everything the calculation takes. */
  readonly usual: boolean;
  readonly draws?: number;
}

export function anyDay(seed: number, bounds: Bounds): AnyDay {
  const dice = diceOf(seed);
  const chemistry = from(dice, ["lfp", "floodedLead", "sealedLead"] as const);
  const nominalV = from(dice, [48, 60, 72]);
  const battery: Battery = {
    chemistry,
    nominalV,
    ratedAh: bounds.usual ? between(dice, 60, 150) : between(dice, 5, 800),
    health: bounds.usual ? between(dice, 0.7, 1) : between(dice, 0.1, 1),
    seriesCount: chemistry === "lfp" ? Math.round(nominalV / 3.2) : nominalV / 2,
    resistanceOhm: bounds.usual ? between(dice, 0.02, 0.06) : between(dice, 0.0005, 2),
    peukertExponent: chemistry === "lfp" ? 1 : bounds.usual ? between(dice, 1.05, 1.2) : between(dice, 1, 1.6),
    ratedHours: from(dice, [5, 20]),
  };
  const cellC = bounds.usual ? between(dice, 10, 35) : between(dice, -20, 60);
  const store = storeModel(battery, cellC);
  const dayFromUtcMs = Date.UTC(2027, Math.floor(dice() * 12), 1 + Math.floor(dice() * 28)) - 5 * HOUR_MS;
  const segments = anySegments(dice, dayFromUtcMs, { usableWh: store.usableWh, cellC, usual: bounds.usual });
  const words = [from<SkyWord>(dice, ["bright", "mixed", "dark"])];
  const cover = coverDay({
    entry: dice() < 0.5 ? { kind: "three", value: words[0] as SkyWord } : null,
    usual: { bright: dice(), mixed: dice(), dark: dice() },
    yesterday: null,
  });
  const input: DayInput = {
    vehicleId: `any${seed}`,
    nowUtcMs: segments[0]?.fromUtcMs ?? dayFromUtcMs,
    segments,
    dayFromUtcMs,
    sky: {
      site: { latDeg: between(dice, -50, 55), lonDeg: 75, altitudeM: between(dice, 0, 2500) },
      linkeTurbidity: between(dice, 2, 7),
      albedo: between(dice, 0.1, 0.5),
      coverAt: (utcMs) => cover.hours[new Date(utcMs + 5 * HOUR_MS).getUTCHours()] as (typeof cover.hours)[number],
    },
    roof: dice() < 0.25 ? null : anyRoof(dice, nominalV, bounds.usual),
    store,
    nightStore: store,
    reserveShare: between(dice, 0.1, 0.3),
    floorShare: 0.05,
    chargerW: between(dice, 300, 2000),
    chargerEfficiency: between(dice, 0.7, 0.95),
    doubt: {
      startShare: bounds.usual ? between(dice, 0.6, 0.95) : dice(),
      startSdShare: between(dice, 0.01, 0.12),
      driveMiddle: between(dice, 0.8, 1.3),
      driveSdLog: PRIOR_DOUBT.driveSdLog,
      roofMiddle: 1,
      roofSdLog: PRIOR_DOUBT.roofSdLog,
      otherMiddle: 1,
      otherSdLog: PRIOR_DOUBT.otherSdLog,
      coverDayCorrelation: PRIOR_DOUBT.coverDayCorrelation,
    },
    missing: [],
    readingDoubt: null,
    lateMinutes: 0,
    legNotes: [],
    fullDue: false,
    draws: bounds.draws ?? 64,
    seed,
  };
  return { input, dice };
}

function anyRoof(dice: Dice, batteryNominalV: number, usual: boolean): Roof {
  const count = 1 + Math.floor(dice() * 3);
  return {
    faces: Array.from({ length: count }, () => ({
      ratedW: usual ? between(dice, 80, 350) : between(dice, 1, 3000),
      tiltDeg: usual ? between(dice, 0, 30) : between(dice, 0, 90),
      sideDeg: Math.floor(dice() * 361),
      gammaPerC: usual ? -0.004 : between(dice, -0.01, 0),
    })),
    link: from<RoofLink>(dice, ["trackerPerFace", "oneTracker", "series"]),
    controllerEfficiency: between(dice, 0.8, 0.99),
    soilingShare: between(dice, 0, 0.3),
    wireShare: between(dice, 0, 0.1),
    mismatchShare: 0.02,
    mount: ROOF_GUESS.mount,
    batteryNominalV,
  };
}

interface Of {
  readonly usableWh: number;
  readonly cellC: number;
  readonly usual: boolean;
}

/** Parked over night, then legs and stops, then parked; the shift takes a share of the set that a fleet might plan for. */
function anySegments(dice: Dice, dayFromUtcMs: number, of: Of): DaySegment[] {
  const whole = (minutes: number) => Math.max(1, Math.round(minutes * MINUTE_MS));
  let at = dayFromUtcMs - whole(between(dice, 0, 360));
  const segments: DaySegment[] = [];
  const put = (minutes: number, more: Partial<DaySegment>): void => {
    const toUtcMs = at + whole(minutes);
    segments.push({ ...still(dice, of), fromUtcMs: at, toUtcMs, ...more });
    at = toUtcMs;
  };
  const leave = dayFromUtcMs + between(dice, 4, 12) * HOUR_MS;
  put((leave - at) / MINUTE_MS, dice() < 0.2 ? { kind: "plug", chargerW: between(dice, 0, 1500) } : {});
  const legs = 1 + Math.floor(dice() * 6);
  const shiftWh = of.usableWh * (of.usual ? between(dice, 0.3, 0.7) : between(dice, 0, 2));
  for (let leg = 0; leg < legs; leg++) {
    const minutes = between(dice, 5, 80);
    const drainW = (shiftWh / legs / minutes) * 60;
    const regenW = dice() < 0.3 ? drainW * between(dice, 0, 0.4) : 0;
    put(minutes, { kind: "drive", km: minutes / 4, drainW, regenW, onShift: true, otherW: between(dice, 0, 150) });
    if (leg < legs - 1) put(between(dice, 1, 90), { kind: "stop", onShift: true, otherW: between(dice, 0, 200) });
  }
  put(between(dice, 60, 600), {});
  return segments;
}

const still = (dice: Dice, of: Of): DaySegment => ({
  fromUtcMs: 0,
  toUtcMs: 0,
  kind: "park",
  label: "",
  km: 0,
  drainW: 0,
  regenW: 0,
  otherW: 0,
  headingDeg: dice() < 0.3 ? null : Math.floor(dice() * 360),
  directBlocked: dice(),
  diffuseBlocked: dice() * 0.9,
  windMs: between(dice, 0, 10),
  airC: of.cellC,
  chargerW: 0,
  payloadKg: 0,
  onShift: false,
});
