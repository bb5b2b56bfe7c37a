import type { CivilDate } from "../../units/zone.js";
import { plusDays } from "../../units/zone.js";
import { type Fleet, fleetOf } from "../fleet.js";
import { type NewVehicle, newVehicle } from "../new-vehicle.js";
import type { Round } from "../round.js";
import type { Vehicle } from "../vehicle.js";
import type { Socket, Yard } from "../yard.js";
import { madeUpReading, madeUpSky, withSetAge } from "./log.js";
import { type DemoPrices, madeUpMoney } from "./money.js";
import { leg, stop } from "./parts.js";
import { madeUpPast } from "./past.js";
import { demoYard } from "./yard.js";

const ID = "old-quay";
/** The quay lies in this zone, wherever the phone that looks at it is: its today is the day of its own clock. */
export const QUAY_ZONE = "Africa/Nairobi";

const PRICES: DemoPrices = {
  fuel: "petrol",
  per100Km: 4.1,
  fuelPrice: 196,
  set: 46_000,
  kit: 116_000,
  lent: 0.5,
  fuelUpkeepPerKm: 2.2,
  upkeepPerKm: 0.9,
  rentPerDay: 400,
};

const rounds: readonly Round[] = [
  {
    id: "fish",
    v: 1,
    yardId: ID,
    name: "Fish, early",
    parts: [
      leg(4.5, 17, { by: "openRoad", name: "quay road" }),
      stop("Lower market", 20, { loadKg: -110 }),
      leg(6, 23),
      stop("Hospital kitchen", 15, { loadKg: -80, shade: "deep" }),
      leg(5.5, 21, { stopsPerKm: 2.5, by: "narrow" }),
      stop("Upper market", 30, { loadKg: -130, shade: "open" }),
      leg(8, 26, { by: "suburb" }),
      stop("Yard, ice and flowers", 100, { loadKg: 200, shade: "open" }),
      leg(7, 25),
      stop("Flower hall", 25, { loadKg: -200 }),
      leg(7, 24, { by: "suburb" }),
    ],
  },
  {
    id: "flowers",
    v: 1,
    yardId: ID,
    name: "Flowers",
    parts: [
      leg(9, 30, { by: "suburb" }),
      stop("Growers", 30, { loadKg: 180, shade: "open" }),
      leg(11, 38),
      stop("Flower hall", 25, { loadKg: -180 }),
      leg(4, 16, { stopsPerKm: 2.5 }),
      stop("Waiting at the hall", 150, { shade: "open" }),
      leg(5, 20, { stopsPerKm: 2.5 }),
      stop("Chapels", 15, { loadKg: -40 }),
      leg(10, 32, { by: "openRoad" }),
    ],
  },
  {
    id: "hotels",
    v: 1,
    yardId: ID,
    name: "Hotels, hill",
    parts: [
      leg(5, 20),
      stop("Ice house", 15, { loadKg: 60, shade: "roofed" }),
      leg(3.2, 17, { climbM: 190, dropM: 5, by: "suburb", stopsPerKm: 0.6, name: "the steep road" }),
      stop("Hilltop hotels", 40, { loadKg: -160, shade: "open", sideDeg: 0 }),
      leg(3.2, 11, { climbM: 5, dropM: 190, by: "suburb", stopsPerKm: 0.6, name: "down again" }),
      leg(7, 25, { by: "openRoad" }),
      stop("Beach hotels", 45, { loadKg: -120, shade: "open" }),
      leg(9, 30, { by: "openRoad" }),
      stop("Yard", 120, { loadKg: 150, shade: "open" }),
      leg(6, 22),
      stop("Evening kitchens", 30, { loadKg: -150, shade: "deep" }),
      leg(6, 21),
    ],
  },
  {
    id: "short",
    v: 1,
    yardId: ID,
    name: "Town, short",
    parts: [
      leg(3, 13, { stopsPerKm: 2.5 }),
      stop("Corner shops", 40, { loadKg: -90 }),
      leg(4, 16, { by: "narrow", stopsPerKm: 3 }),
      stop("School kitchens", 30, { loadKg: -60, shade: "deep" }),
      leg(5, 18),
      stop("Yard", 150, { loadKg: 100, shade: "open" }),
      leg(4, 16, { stopsPerKm: 2.5 }),
      stop("Corner shops", 30, { loadKg: -100 }),
      leg(4, 15),
    ],
  },
];

type Own = Partial<NewVehicle> & {
  readonly roundId: string;
  readonly leaveMinute: number;
  readonly fullLoadKg?: number;
};
const lfp = (ratedAh: number, roofW: number, more: Own): Own => ({
  chemistry: "lfp",
  nominalV: 51.2,
  ratedAh,
  roofW,
  ...more,
});
const lead = (ratedAh: number, roofW: number, more: Own): Own => ({
  chemistry: "floodedLead",
  nominalV: 48,
  ratedAh,
  roofW,
  gauge: { kind: "volts", bars: null },
  ...more,
});

/** Twelve vehicles: six lithium, six lead-acid; flat, two-sided, one with a side panel, one without a roof. */
const VEHICLES: readonly Own[] = [
  lfp(160, 420, { name: "Anchor", roundId: "fish", leaveMinute: 220, roofShape: "twoSided" }),
  lfp(120, 400, { name: "Basil", roundId: "flowers", leaveMinute: 330 }),
  lead(150, 320, { name: "Coral", roundId: "short", leaveMinute: 360 }),
  lfp(160, 420, { name: "Dolphin", roundId: "hotels", leaveMinute: 300, roofShape: "twoSided" }),
  lead(180, 360, { name: "Ebb", roundId: "flowers", leaveMinute: 340 }),
  lead(150, 0, { name: "Fern", roundId: "short", leaveMinute: 390 }),
  lfp(150, 440, {
    name: "Jasmine",
    roundId: "fish",
    leaveMinute: 230,
    roofShape: "twoSided",
    gauge: { kind: "bars", bars: 10 },
  }),
  lead(160, 320, { name: "Heron", roundId: "hotels", leaveMinute: 320 }),
  lfp(110, 380, { name: "Iris", roundId: "short", leaveMinute: 400 }),
  lead(180, 360, { name: "Jetty", roundId: "fish", leaveMinute: 240 }),
  lfp(150, 420, { name: "Kelp", roundId: "flowers", leaveMinute: 350, gauge: { kind: "volts", bars: null } }),
  lead(150, 320, { name: "Lantern", roundId: "short", leaveMinute: 420 }),
];

/** Level seen this evening, null where nobody read the gauge. */
const SEEN: readonly (number | null)[] = [0.93, 0.88, 0.74, 0.71, 0.62, 0.97, 0.79, 0.9, 0.5, 0.38, null, 0.85];

function vehicleOf(own: Own, index: number): Vehicle {
  const plate = String(index + 1).padStart(2, "0");
  const { fullLoadKg = 330, ...taps } = own;
  const vehicle = newVehicle({
    id: `quay-${plate}`,
    yardId: ID,
    plate,
    class: "goodsLarge",
    chemistry: "lfp",
    loadClass: "full",
    plug: "house socket",
    ...taps,
  });
  const sided = plate === "04" ? [{ name: "side", ratedW: 90, tiltDeg: 80, sideDeg: 90, gammaPerC: -0.004 }] : [];
  return {
    ...vehicle,
    fullLoadKg,
    legalLoadKg: 500,
    status: plate === "12" ? "offRoad" : "working",
    roof: { ...vehicle.roof, faces: [...vehicle.roof.faces, ...sided] },
    guesses: vehicle.guesses.filter((path) => path !== "fullLoadKg" && path !== "legalLoadKg"),
  };
}

const sockets: readonly Socket[] = [1, 2, 3, 4, 5].map((n) => ({
  id: `quay-s${n}`,
  v: 1,
  yardId: ID,
  name: String(n),
  limitKw: 2.2,
  plug: "house socket",
  timer: n <= 2,
  breakerA: 16,
}));

const iceMachine = (hour: number): number => (hour < 5 || hour >= 22 ? 1.4 : hour < 9 ? 2.2 : 0.8);

const yardOfQuay = (): Yard => ({
  ...demoYard(ID, "Old Quay yard", QUAY_ZONE, { latDeg: -4.05, lonDeg: 39.68, altitudeM: 12 }),
  siteLimitKw: 8,
  marginKw: 0.5,
  baseLoadKwByHour: Array.from({ length: 24 }, (_, hour) => iceMachine(hour)),
  tariff: {
    kind: "bands",
    bands: [
      { from: "18:00", to: "22:00", perKwhMinor: 2900 },
      { from: "22:00", to: "06:00", perKwhMinor: 1600 },
    ],
    otherwisePerKwhMinor: 2200,
    feeMinor: 0,
    demandPerKwMinor: 0,
    billedPeakKw: 0,
  },
  staff: {
    awake: [
      { from: "16:00", to: "23:00" },
      { from: "03:00", to: "08:00" },
    ],
    wake: ["01:00"],
    swapWorthMinor: 200,
    wakeWorthMinor: 1500,
  },
});

/** The delivery yard of the demo, alive on the given day; all invented. */
export function quayFleet(today: CivilDate, nowUtcMs = Number.POSITIVE_INFINITY): Fleet {
  const yard = yardOfQuay();
  const vehicles = VEHICLES.map((own, i) => withSetAge(vehicleOf(own, i), today, i));
  const past = madeUpPast(yard, vehicles, rounds, today);
  return fleetOf(
    { title: "Old Quay yard", invented: true },
    {
      yards: [yard],
      sockets,
      vehicles,
      rounds,
      skies: [...past.skies, madeUpSky(yard, today, "bright"), madeUpSky(yard, plusDays(today, 1), "mixed")],
      readings: past.readings.concat(
        vehicles.flatMap((vehicle, i) => {
          const share = SEEN[i];
          if (share === null || share === undefined) return [];
          return [
            madeUpReading(vehicle, yard, {
              date: today,
              minute: 18 * 60 + 5 * i,
              share,
              noLaterThanUtcMs: nowUtcMs - 5 * 60_000,
            }),
          ];
        }),
      ),
      entries: past.entries,
      forecasts: past.forecasts,
      ...madeUpMoney(yard, vehicles, PRICES, today),
    },
  );
}
