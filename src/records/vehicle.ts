import * as z from "zod/mini";
import { above0, date, id, lazily, listOf, name, num, share, text, whole } from "./fields.js";
import { kind, type Old, type RecordOf } from "./kind.js";
import { plug } from "./yard.js";

export const vehicleClass = () => z.enum(["goodsLarge", "passenger", "eRickshaw", "vendingCart"]);
export const chemistry = () => z.enum(["lfp", "floodedLead", "sealedLead"]);
export const loadClass = () => z.enum(["empty", "half", "full"]);
const efficiency = () => num(0.3, 1);

const drive = () =>
  z.strictObject({
    motorRatedW: num(100, 20_000),
    motorPeakW: num(100, 40_000),
    /** Speed at which the rated power is reached, when the plate says it. */
    motorRatedRpm: z.exactOptional(num(100, 12_000)),
    motorEfficiency: efficiency(),
    controllerEfficiency: efficiency(),
    controllerMaxA: num(5, 800),
    /** Battery voltage at which the controller lets go. */
    cutOffV: num(5, 200),
    /** Gear ratios, lowest gear first, before the final ratio. */
    gears: listOf(num(0.2, 30), 8, 1),
    finalRatio: num(0.5, 60),
    wheelRadiusM: num(0.1, 0.5),
    transmissionEfficiency: efficiency(),
    maxKmh: num(5, 90),
    /** Share of the wheels' braking energy that reaches the battery. */
    regenShare: num(0, 0.8),
  });

const battery = () =>
  z.strictObject({
    chemistry: chemistry(),
    nominalV: above0("batteryZero", 12, 150),
    ratedAh: above0("batteryZero", 5, 800),
    /** Share of the rated charge that is left. */
    health: above0("batteryZero", 0.1, 1),
    /** Cells in series; a count of 12 V or 6 V blocks is understood too. */
    seriesCount: whole(1, 80),
    resistanceOhm: num(0.0005, 2),
    peukertExponent: num(1, 1.6),
    /** Hours of the rate at which the Ah were stated. */
    ratedHours: num(0.5, 100),
    reserveShare: num(0, 0.9),
    floorShare: num(0, 0.9),
    installedOn: z.nullable(date()),
    fullChargeEveryDays: z.nullable(whole(1, 90)),
  });

const face = () =>
  z.strictObject({
    name: name(30),
    ratedW: num(0.1, 3000),
    /** From level; more than 90 would face the ground. */
    tiltDeg: z.number().check(z.gte(0), z.lte(90, "facesGround")),
    /** Clockwise from forward: 0 front, 90 right side, 180 back, 270 left side. */
    sideDeg: num(0, 360),
    gammaPerC: num(-0.01, 0),
    panelsInSeries: z.exactOptional(whole(1, 20)),
    /** Of one panel, at standard test conditions. */
    openCircuitV: z.exactOptional(num(1, 200)),
    maxPowerV: z.exactOptional(num(1, 200)),
  });

const roof = () =>
  z.strictObject({
    faces: listOf(face(), 8),
    link: z.enum(["trackerPerFace", "oneTracker", "series"]),
    controllerEfficiency: efficiency(),
    controllerMaxV: z.nullable(num(5, 500)),
    controllerMinV: z.nullable(num(1, 500)),
    wipedEveryDays: whole(1, 365),
    wireShare: num(0, 0.3),
  });

/** Version 0, the draft, knew the energy of a set instead of its charge, and neither tyres nor guesses. */
function climbFrom0(old: Old): Old {
  const { packWh, ...set } = (old.battery ?? {}) as Old;
  const { nominalV } = set;
  const ratedAh = typeof packWh === "number" && typeof nominalV === "number" ? packWh / nominalV : set.ratedAh;
  return { tyres: "ok", guesses: [], learned: null, ...old, v: 1, battery: { ...set, ratedAh } };
}

/** One vehicle: chassis, drive, set, charger, roof, what else draws current, its usual day, and which of it nobody typed. */
export const vehicleKind = kind({
  name: "vehicle",
  list: "vehicles",
  version: 1,
  climb: { 0: climbFrom0 },
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      yardId: id(),
      plate: name(16),
      name: text(),
      class: vehicleClass(),
      status: z.enum(["working", "offRoad"]),
      /** Ready to drive, with roof and set, without the driver. */
      kerbKg: num(80, 2000),
      driverKg: num(0, 300),
      legalLoadKg: z.nullable(num(0, 2000)),
      /** What "full" weighs on this vehicle. */
      fullLoadKg: num(0, 2000),
      cdaM2: num(0.2, 5),
      crr: num(0.004, 0.1),
      tyres: z.enum(["ok", "soft"]),
      drive: drive(),
      battery: battery(),
      gauge: z.strictObject({ kind: z.enum(["percent", "bars", "volts"]), bars: z.nullable(whole(2, 20)) }),
      charger: z.strictObject({ ratedW: num(20, 20_000), efficiency: efficiency(), plug: plug() }),
      roof: roof(),
      /** W while switched on; baseW runs whenever the key is on. */
      accessories: z.strictObject({
        baseW: num(0, 2000),
        lampW: num(0, 1000),
        fridgeW: num(0, 3000),
        grinderW: num(0, 3000),
        fanW: num(0, 1000),
      }),
      usual: z.strictObject({ roundId: z.nullable(id()), leaveMinute: whole(0, 1439), loadClass: loadClass() }),
      /** What this vehicle's own days taught: drive energy against the physics, and how far days scatter about it. */
      learned: z.nullable(z.strictObject({ driveFactor: num(0.2, 5), spread: share(), days: whole(0, 10_000) })),
      /** Paths of fields nobody typed, as `battery.ratedAh`. */
      guesses: listOf(name(60), 100),
    }),
  ),
});
export type Vehicle = RecordOf<typeof vehicleKind>;
export type VehicleClass = Vehicle["class"];
export type Chemistry = Vehicle["battery"]["chemistry"];
export type LoadClass = Vehicle["usual"]["loadClass"];
export type RoofFaceRecord = Vehicle["roof"]["faces"][number];
