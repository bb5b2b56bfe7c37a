import type { Round, RoundPart, Yard } from "../../src/records/index.js";
import type { DayCase } from "../../src/records/map/day.js";
import { newVehicle } from "../../src/records/new-vehicle.js";
import { type Dice, diceOf } from "../../src/units/dice.js";
import { utcMsAt } from "../../src/units/zone.js";
import { examples } from "../records/examples.js";

const DATE = "2027-02-10";
const from = <T>(dice: Dice, list: readonly T[]): T => list[Math.floor(dice() * list.length)] as T;
const between = (dice: Dice, low: number, high: number): number => low + (high - low) * dice();
const ground = examples.yard as unknown as Yard;

/** A random day of a usual vehicle on a round of 15 to 90 km with stops, hills and goods; the same seed gives the same day. */
export function anyCase(seed: number, draws = 64): DayCase {
  const dice = diceOf(seed);
  const vehicle = newVehicle({
    id: `any${seed}`,
    yardId: ground.id,
    plate: "01",
    class: from(dice, ["goodsLarge", "passenger", "eRickshaw", "vendingCart"] as const),
    chemistry: from(dice, ["lfp", "floodedLead", "sealedLead"] as const),
    ratedAh: between(dice, 80, 160),
    roofW: from(dice, [0, 200, 320, 500, 700]),
    roofShape: from(dice, ["flat", "twoSided"] as const),
    roundId: "r",
    leaveMinute: Math.round(between(dice, 240, 720)),
    loadClass: from(dice, ["empty", "half", "full"] as const),
  });
  const parts = Array.from({ length: 3 + Math.floor(dice() * 8) }, () => pair(dice)).flat();
  const round: Round = { id: "r", v: 1, yardId: ground.id, name: "any", parts };
  const nowUtcMs = utcMsAt("2027-02-09", 19 * 60, ground.zone);
  return {
    yard: ground,
    vehicle: { ...vehicle, gauge: { kind: "percent", bars: null } },
    rounds: [round],
    shifts: [],
    skies: [
      {
        id: "s",
        v: 1,
        yardId: ground.id,
        date: DATE,
        cover: { kind: "three", value: from(dice, ["bright", "mixed", "dark"] as const) },
        airMinC: null,
        airMaxC: null,
        windMs: null,
        wet: dice() < 0.2,
        haze: null,
      },
    ],
    readings: [
      {
        id: "read",
        v: 1,
        vehicleId: vehicle.id,
        atUtcMs: nowUtcMs,
        kind: "percent",
        value: Math.round(between(dice, 40, 100)),
        restedMin: 60,
        perBlock: false,
      },
    ],
    date: DATE,
    nowUtcMs,
    draws,
  };
}

function pair(dice: Dice): RoundPart[] {
  const km = between(dice, 2, 12);
  const slope = dice() < 0.6 ? 4 : between(dice, 0, 15);
  return [
    {
      kind: "leg",
      km,
      minutes: km * between(dice, 2.5, 5),
      climbM: km * slope,
      dropM: km * slope,
      surface: from(dice, ["asphalt", "wornAsphalt", "gravel"] as const),
      surroundings: from(dice, ["openRoad", "suburb", "town"] as const),
      stopsPerKm: between(dice, 0, 3),
      headingDeg: dice() < 0.5 ? null : between(dice, 0, 360),
    },
    {
      kind: "stop",
      name: "stop",
      minutes: between(dice, 2, 60),
      shade: from(dice, ["open", "part", "deep"] as const),
      sideDeg: null,
      payloadChangeKg: between(dice, -80, 60),
      socketKw: null,
    },
  ];
}
