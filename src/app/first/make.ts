import { emptyingW, storeModel } from "../../calc/battery/index.js";
import { airDensityKgM3, legDrain } from "../../calc/road/index.js";
import type { Chemistry, LegPart, Round, Vehicle, VehicleClass } from "../../records/index.js";
import { batteryOf } from "../../records/map/battery.js";
import { legOf, roadVehicleOf } from "../../records/map/road.js";
import { newVehicle } from "../../records/new-vehicle.js";

/** The five taps. */
export interface Taps {
  readonly looks: VehicleClass;
  readonly fullChargeKm: number;
  readonly usualDayKm: number;
  readonly panels: number;
  readonly dash: "volts" | "bars" | "percent" | "nothing";
}
/** Names in the person's language. */
export interface Names {
  readonly vehicle: string;
  readonly plate: string;
  readonly round: string;
  readonly out: string;
  readonly midday: string;
  readonly back: string;
  readonly stall: string;
}
export interface Ids {
  readonly yard: string;
  readonly vehicle: string;
  readonly round: string;
}

// Common practice, no source.
const PANEL_W = 105;
const BARS = 5;
const CELL_C = 25;
const MEAN_KMH: Readonly<Record<VehicleClass, number>> = {
  passenger: 18,
  goodsLarge: 18,
  eRickshaw: 14,
  vendingCart: 14,
};
const CHEMISTRY: Readonly<Record<VehicleClass, Chemistry>> = {
  passenger: "lfp",
  goodsLarge: "lfp",
  eRickshaw: "floodedLead",
  vendingCart: "lfp",
};

const leg = (name: string, km: number, looks: VehicleClass): LegPart => ({
  kind: "leg",
  name,
  km: Math.round(km * 10) / 10,
  minutes: Math.max(1, Math.round((km / MEAN_KMH[looks]) * 60)),
  climbM: 0,
  dropM: 0,
  surface: "wornAsphalt",
  surroundings: "town",
  stopsPerKm: looks === "goodsLarge" ? 1 : 2,
  headingDeg: null,
});

/** A usual day: half of its km, a long stop, the other half. */
export function makeRound(ids: Ids, taps: Pick<Taps, "looks" | "usualDayKm">, names: Names): Round {
  const stall = taps.looks === "vendingCart";
  return {
    id: ids.round,
    v: 1,
    yardId: ids.yard,
    name: names.round,
    parts: [
      leg(names.out, taps.usualDayKm / 2, taps.looks),
      {
        kind: "stop",
        name: stall ? names.stall : names.midday,
        minutes: stall ? 420 : 180,
        shade: stall ? "open" : "part",
        sideDeg: null,
        payloadChangeKg: 0,
        ...(stall ? { lampOn: true, fridgeOn: true } : {}),
        socketKw: null,
      },
      leg(names.back, taps.usualDayKm / 2, taps.looks),
    ],
  };
}

/** A vehicle of a class with a set as large as the km that one charge takes it. */
export function makeVehicle(ids: Ids, taps: Taps, names: Names): Vehicle {
  const nothing = taps.dash === "nothing";
  const made = newVehicle({
    id: ids.vehicle,
    yardId: ids.yard,
    plate: names.plate,
    name: names.vehicle,
    class: taps.looks,
    chemistry: CHEMISTRY[taps.looks],
    roofW: taps.panels * PANEL_W,
    ...(taps.dash === "nothing" ? {} : { gauge: { kind: taps.dash, bars: taps.dash === "bars" ? BARS : null } }),
    roundId: ids.round,
  });
  // Nobody typed the chemistry, and of the roof only the number of panels: those stay guesses.
  const kept = new Set([
    ...made.guesses,
    "battery.chemistry",
    ...(nothing ? ["gauge.kind"] : []),
    ...(taps.panels > 0 ? ["roof.faces.0.ratedW"] : []),
  ]);
  const gauge = nothing ? { kind: "percent" as const, bars: null } : made.gauge;
  return sized({ ...made, gauge, guesses: [...kept] }, taps);
}

/**
 * The set that gives the km of a full charge, down to where the vehicle stops, on a level leg with half a load. What is not known of the set
 * (its losses grow as it gets smaller) is found by halving between 5 and 800 Ah.
 */
function sized(made: Vehicle, taps: Taps): Vehicle {
  const usual = leg("", taps.fullChargeKm, taps.looks);
  const on = { payloadKg: made.fullLoadKg / 2, wet: false, airDensityKgM3: airDensityKgM3(0, CELL_C) };
  const drain = legDrain(legOf(usual, on), roadVehicleOf(made));
  const hours = drain.minutes / 60;
  const meanW = (drain.batteryWh - drain.regenWh) / hours + made.accessories.baseW;
  const withAh = (ratedAh: number): Vehicle => ({ ...made, battery: { ...made.battery, ratedAh } });
  const lasts = (ratedAh: number): boolean => {
    const store = storeModel(batteryOf(withAh(ratedAh)), CELL_C);
    return store.usableWh * (1 - made.battery.floorShare) >= emptyingW(store, meanW) * hours;
  };
  let [low, high] = [5, 800];
  while (high - low > 0.5) {
    const middle = (low + high) / 2;
    if (lasts(middle)) high = middle;
    else low = middle;
  }
  const ratedAh = Math.round(high);
  const chargerW = (made.charger.ratedW * ratedAh) / made.battery.ratedAh;
  const ratedW = Math.max(100, Math.round(chargerW / 50) * 50);
  return { ...withAh(ratedAh), charger: { ...made.charger, ratedW } };
}
