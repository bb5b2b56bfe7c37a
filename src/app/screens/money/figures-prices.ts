import type { BaselineRecord, PriceRecord, SetCostRecord, Vehicle, Yard } from "../../../records/index.js";
import { type Book, listed } from "../../fleet.js";
import type { Group, Values } from "./figures-fields.js";
import { coins, dated, major, newest, newestOf, price } from "./figures-write.js";

/** km a set goes, low and high beside the likely figure, as a share: common practice, no source. */
const SET_KM_DOUBT = 0.3;
/** Usual life of a set: lead-acid 6 to 12 months at 1,500 km (field notes, S13 and S14); lithium: common practice, no source. */
const USUAL_SET = { lead: { setKm: 13_500, setYears: 1.5 }, lfp: { setKm: 80_000, setYears: 7 } } as const;

const usualSet = (vehicle: Vehicle): Values => ({
  setScrap: 0,
  ...(vehicle.battery.chemistry === "lfp" ? USUAL_SET.lfp : USUAL_SET.lead),
});

export const baseline: Group = {
  name: "baseline",
  fields: ["fuel", "perHundredKm", "howKnown", "upkeepThen"],
  needs: ["fuel", "perHundredKm"],
  read: (book, { vehicle, currency }) => {
    const found = newestOf(listed(book, "baseline"), vehicle.id);
    if (!found) return {};
    const { fuel, per100Km, how, upkeepPerKmMinor } = found;
    return { fuel, perHundredKm: per100Km, howKnown: how, upkeepThen: major(upkeepPerKmMinor, currency) };
  },
  write: (values, at) => [
    {
      kind: "baseline",
      put: {
        ...dated(at),
        vehicleId: at.vehicle.id,
        fuel: values.fuel as BaselineRecord["fuel"],
        per100Km: Number(values.perHundredKm),
        how: (values.howKnown ?? "memory") as BaselineRecord["how"],
        upkeepPerKmMinor: price(values.upkeepThen, at.currency),
      },
    },
  ],
};

const pricesOf = (book: Book, yard: Yard, vehicle: Vehicle): readonly PriceRecord[] =>
  listed(book, "price").filter(
    (record) => record.yardId === yard.id && (record.vehicleId === null || record.vehicleId === vehicle.id),
  );

export const fuelPrice: Group = {
  name: "fuelPrice",
  fields: ["fuelPriceNow"],
  needs: ["fuelPriceNow"],
  read: (book, at) => {
    const { fuel } = baseline.read(book, at);
    const found = newest(
      pricesOf(book, at.yard, at.vehicle).filter(({ of }) => of.kind === "fuel" && of.fuel === fuel),
    );
    return {
      ...(fuel === undefined ? {} : { fuel }),
      ...(found?.of.kind === "fuel" ? { fuelPriceNow: major(found.of.perUnitMinor, at.currency) } : {}),
    };
  },
  write: (values, at) => [
    {
      kind: "price",
      put: {
        ...dated(at),
        yardId: at.yard.id,
        vehicleId: null,
        of: {
          kind: "fuel",
          fuel: (values.fuel ?? "diesel") as BaselineRecord["fuel"],
          perUnitMinor: price(values.fuelPriceNow, at.currency),
        },
      },
    },
  ],
};

export const upkeepNow: Group = {
  name: "upkeepNow",
  fields: ["upkeepNow"],
  needs: ["upkeepNow"],
  read: (book, { vehicle, yard, currency }) => {
    const found = newest(pricesOf(book, yard, vehicle).filter(({ of }) => of.kind === "upkeep"));
    return found?.of.kind === "upkeep" ? { upkeepNow: major(found.of.perKmMinor, currency) } : {};
  },
  write: (values, at) => [
    {
      kind: "price",
      put: {
        ...dated(at),
        yardId: at.yard.id,
        vehicleId: at.vehicle.id,
        of: { kind: "upkeep", perKmMinor: price(values.upkeepNow, at.currency) },
      },
    },
  ],
};

export const setCost: Group = {
  name: "setCost",
  fields: ["setPrice", "setScrap", "setKm", "setYears"],
  needs: ["setPrice"],
  read: (book, { vehicle, currency }) => {
    const found = newestOf(listed(book, "setCost"), vehicle.id);
    if (!found) return usualSet(vehicle);
    const { priceMinor, scrapMinor, lifeKm, lifeYears } = found;
    return {
      setPrice: major(priceMinor, currency),
      setScrap: major(scrapMinor, currency),
      setKm: lifeKm,
      setYears: lifeYears,
    };
  },
  write: (values, at, held) => {
    const setKm = Number(values.setKm);
    const before = newestOf(listed(held, "setCost"), at.vehicle.id);
    const doubt = before?.lifeKm === setKm ? before : null; // low and high as somebody said them
    const put: SetCostRecord = {
      ...dated(at),
      vehicleId: at.vehicle.id,
      priceMinor: coins(values.setPrice, at.currency),
      scrapMinor: coins(values.setScrap, at.currency),
      lifeKmLow: doubt?.lifeKmLow ?? Math.round(setKm * (1 - SET_KM_DOUBT)),
      lifeKm: setKm,
      lifeKmHigh: doubt?.lifeKmHigh ?? Math.round(setKm * (1 + SET_KM_DOUBT)),
      lifeYears: Number(values.setYears),
    };
    return [{ kind: "setCost", put }];
  },
};
