import { type CivilDate, plusDays } from "../../units/zone.js";
import { type Fleet, fleetOf } from "../fleet.js";
import { newVehicle } from "../new-vehicle.js";
import type { Round } from "../round.js";
import type { Vehicle } from "../vehicle.js";
import { madeUpReading, madeUpSky, withSetAge } from "./log.js";
import { type DemoPrices, madeUpMoney } from "./money.js";
import { leg, shuttle, stop } from "./parts.js";
import { madeUpPast } from "./past.js";
import { demoYard } from "./yard.js";

const ID = "lighthouse";
const PRICES: DemoPrices = {
  fuel: "cng",
  per100Km: 3.1,
  fuelPrice: 86,
  set: 41_000,
  kit: 135_000,
  lent: 0.8,
  fuelUpkeepPerKm: 0.7,
  upkeepPerKm: 0.3,
  rentPerDay: 300,
};

const trip = (km: number, minutes: number) => leg(km, minutes, { stopsPerKm: 2, by: "town" });
const rounds: readonly Round[] = [
  {
    id: "station",
    v: 1,
    yardId: ID,
    name: "Station shuttle",
    parts: [
      ...shuttle(4, [trip(4, 16), stop("Station", 8), trip(4, 16), stop("Lighthouse stand", 10, { shade: "open" })]),
      stop("Midday at the stand", 150, { shade: "open", sideDeg: 180 }),
      ...shuttle(3, [trip(4, 17), stop("Station", 8), trip(4, 17), stop("Lighthouse stand", 10, { shade: "open" })]),
    ],
  },
  {
    id: "school",
    v: 1,
    yardId: ID,
    name: "School and bazaar",
    parts: [
      ...shuttle(3, [trip(3, 14), stop("School gate", 10, { shade: "deep" }), trip(3, 14), stop("Bazaar", 10)]),
      stop("Midday under the tree", 180, { shade: "deep" }),
      ...shuttle(4, [trip(3.5, 15), stop("Bazaar", 8), trip(3.5, 15), stop("Lighthouse stand", 12, { shade: "open" })]),
    ],
  },
];

const SEEN: readonly (number | null)[] = [0.95, 0.9, 0.62, null, 0.8];

function vehicleOf(index: number): Vehicle {
  const plate = `L${index + 1}`;
  const lithium = index === 1;
  return newVehicle({
    id: `stand-${index + 1}`,
    yardId: ID,
    plate,
    class: index === 1 ? "passenger" : "eRickshaw",
    chemistry: lithium ? "lfp" : index === 4 ? "sealedLead" : "floodedLead",
    nominalV: lithium ? 51.2 : 48,
    ratedAh: lithium ? 110 : 130,
    roofW: index === 3 ? 0 : 300,
    gauge: index === 2 ? { kind: "bars", bars: 5 } : { kind: lithium ? "percent" : "volts", bars: null },
    roundId: index % 2 === 0 ? "station" : "school",
    leaveMinute: 360 + 10 * index,
    loadClass: "half",
  });
}

/** The taxi stand of the demo: five vehicles, one flat fee a night, no meter; all invented. */
export function standFleet(today: CivilDate, nowUtcMs = Number.POSITIVE_INFINITY): Fleet {
  const yard = {
    ...demoYard(ID, "Lighthouse stand", "Asia/Kolkata", { latDeg: 19.3, lonDeg: 84.9, altitudeM: 8 }),
    tariff: {
      kind: "flatFee" as const,
      bands: [],
      otherwisePerKwhMinor: 0,
      feeMinor: 6000,
      demandPerKwMinor: 0,
      billedPeakKw: 0,
    },
  };
  const vehicles = Array.from({ length: 5 }, (_, i) => withSetAge(vehicleOf(i), today, i));
  const past = madeUpPast(yard, vehicles, rounds, today);
  return fleetOf(
    { title: "Lighthouse stand", invented: true },
    {
      yards: [yard],
      sockets: [1, 2, 3].map((n) => ({
        id: `stand-s${n}`,
        v: 1,
        yardId: ID,
        name: String(n),
        limitKw: 1.5,
        plug: "house socket",
        timer: false,
        breakerA: 10,
      })),
      vehicles,
      rounds,
      skies: [...past.skies, madeUpSky(yard, plusDays(today, 1), "bright")],
      readings: past.readings.concat(
        vehicles.flatMap((vehicle, i) => {
          const share = SEEN[i];
          return share === null || share === undefined
            ? []
            : [
                madeUpReading(vehicle, yard, {
                  date: today,
                  minute: 20 * 60 + 3 * i,
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
