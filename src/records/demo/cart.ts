import { type CivilDate, plusDays } from "../../units/zone.js";
import { type Fleet, fleetOf } from "../fleet.js";
import { newVehicle } from "../new-vehicle.js";
import type { Round } from "../round.js";
import { madeUpReading, madeUpSky, withSetAge } from "./log.js";
import { type DemoPrices, madeUpMoney } from "./money.js";
import { leg, stop } from "./parts.js";
import { madeUpPast } from "./past.js";
import { demoYard } from "./yard.js";

const ID = "fountain";
const PRICES: DemoPrices = {
  fuel: "petrol",
  per100Km: 4.2,
  fuelPrice: 1.78,
  set: 900,
  kit: 3900,
  lent: 0,
  fuelUpkeepPerKm: 0.03,
  upkeepPerKm: 0.012,
  rentPerDay: 0,
};

const round: Round = {
  id: "fountain-day",
  v: 1,
  yardId: ID,
  name: "Fountain square",
  parts: [
    leg(4.5, 18, { stopsPerKm: 2 }),
    stop("Fountain square, morning", 240, { shade: "open", sideDeg: 90, uses: ["fridge", "grinder"] }),
    leg(1.5, 8, { by: "narrow" }),
    stop("River walk, afternoon", 270, { shade: "part", sideDeg: 180, uses: ["fridge", "grinder", "lamp"] }),
    leg(5, 20, { stopsPerKm: 2 }),
  ],
};

/** The owner-driver of the demo: a coffee cart with fridge and grinder, in a place with summer time; all invented. */
export function cartFleet(today: CivilDate, nowUtcMs = Number.POSITIVE_INFINITY): Fleet {
  const yard = {
    ...demoYard(ID, "Fountain garage", "Europe/Lisbon", { latDeg: 38.7, lonDeg: -9.2, altitudeM: 60 }),
    tariff: {
      kind: "bands" as const,
      bands: [{ from: "22:00", to: "08:00", perKwhMinor: 12 }],
      otherwisePerKwhMinor: 21,
      feeMinor: 0,
      demandPerKwMinor: 0,
      billedPeakKw: 0,
    },
  };
  const made = newVehicle({
    id: "cart-1",
    yardId: ID,
    plate: "77",
    name: "Fountain cart",
    class: "vendingCart",
    chemistry: "lfp",
    nominalV: 51.2,
    ratedAh: 100,
    roofW: 440,
    roofShape: "twoSided",
    gauge: { kind: "percent", bars: null },
    roundId: round.id,
    leaveMinute: 500,
    loadClass: "full",
  });
  // a grinder runs a few minutes of each hour: its mean draw, as the stop counts whole hours
  const aged = withSetAge(made, today, 3);
  const vehicle = { ...aged, accessories: { ...aged.accessories, grinderW: 30, fridgeW: 70 }, fullLoadKg: 120 };
  const past = madeUpPast(yard, [vehicle], [round], today);
  return fleetOf(
    { title: "Fountain cart", invented: true },
    {
      yards: [yard],
      sockets: [
        { id: "cart-s1", v: 1, yardId: ID, name: "1", limitKw: 2.3, plug: "house socket", timer: true, breakerA: 16 },
      ],
      vehicles: [vehicle],
      rounds: [round],
      skies: [...past.skies, madeUpSky(yard, plusDays(today, 1), "mixed")],
      readings: [
        ...past.readings,
        madeUpReading(vehicle, yard, {
          date: today,
          minute: 20 * 60,
          share: 0.55,
          noLaterThanUtcMs: nowUtcMs - 5 * 60_000,
        }),
      ],
      entries: past.entries,
      forecasts: past.forecasts,
      ...madeUpMoney(yard, [vehicle], PRICES, today),
    },
  );
}
