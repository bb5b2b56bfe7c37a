import { minorPerMajor } from "../../calc/money/currency.js";
import { type CivilDate, plusDays } from "../../units/zone.js";
import type { FleetLists } from "../fleet.js";
import type {
  AccountLineRecord,
  BaselineRecord,
  KitCostRecord,
  LoanRecord,
  PriceRecord,
  SetCostRecord,
} from "../money.js";
import type { Vehicle } from "../vehicle.js";
import type { Yard } from "../yard.js";
import { DEMO_DAYS } from "./log.js";

/** Prices of an invented place, in the currency's own money; near what a ratio of the trade would be, and nobody's. */
export interface DemoPrices {
  readonly fuel: BaselineRecord["fuel"];
  readonly per100Km: number;
  readonly fuelPrice: number;
  readonly set: number;
  readonly kit: number;
  /** Part of the kit that was borrowed, 0..1. */
  readonly lent: number;
  readonly fuelUpkeepPerKm: number;
  readonly upkeepPerKm: number;
  /** What the driver of the first vehicle hands over a day; 0 where the owner drives. */
  readonly rentPerDay: number;
}

/** Bought just before the made-up log begins, so that no day of it is unknown. */
const DAYS_AGO = DEMO_DAYS + 2;

/** Made-up money behind made-up vehicles: the fuel they burnt before, what it costs, their sets, kits and loans. */
export function madeUpMoney(
  yard: Yard,
  vehicles: readonly Vehicle[],
  prices: DemoPrices,
  today: CivilDate,
): Partial<FleetLists> {
  const since = plusDays(today, -DAYS_AGO);
  const minor = (amount: number): number => Math.round(amount * (minorPerMajor(yard.currency) ?? 1));
  const dated = (from: CivilDate) => ({
    v: 1 as const,
    from,
    writtenUtcMs: Date.UTC(2026, 0, 1),
    currency: yard.currency,
    note: "",
  });
  const price = (from: CivilDate, factor: number): PriceRecord => ({
    ...dated(from),
    id: `${yard.id}/fuel/${from}`,
    yardId: yard.id,
    vehicleId: null,
    of: { kind: "fuel", fuel: prices.fuel, perUnitMinor: minor(prices.fuelPrice * factor) },
  });
  return {
    baselines: vehicles.map(
      (vehicle, i): BaselineRecord => ({
        ...dated(since),
        id: `${vehicle.id}/baseline`,
        vehicleId: vehicle.id,
        fuel: prices.fuel,
        per100Km: prices.per100Km,
        how: i % 3 === 0 ? "receipts" : "memory",
        upkeepPerKmMinor: minor(prices.fuelUpkeepPerKm),
      }),
    ),
    prices: [
      price(since, 0.97),
      price(plusDays(today, -9), 1),
      {
        ...dated(since),
        id: `${yard.id}/upkeep`,
        yardId: yard.id,
        vehicleId: null,
        of: { kind: "upkeep", perKmMinor: minor(prices.upkeepPerKm) },
      },
    ],
    setCosts: vehicles.map((vehicle): SetCostRecord => {
      const lithium = vehicle.battery.chemistry === "lfp";
      return {
        ...dated(since),
        id: `${vehicle.id}/set`,
        vehicleId: vehicle.id,
        priceMinor: minor(prices.set * (lithium ? 2.6 : 1)),
        scrapMinor: minor(prices.set * (lithium ? 0.1 : 0.2)),
        lifeKmLow: lithium ? 50_000 : 11_000,
        lifeKm: lithium ? 80_000 : 16_000,
        lifeKmHigh: lithium ? 110_000 : 21_000,
        lifeYears: lithium ? 7 : 1.5,
      };
    }),
    kitCosts: vehicles.map(
      (vehicle): KitCostRecord => ({
        ...dated(since),
        id: `${vehicle.id}/kit`,
        vehicleId: vehicle.id,
        what: "kit",
        priceMinor: minor(prices.kit),
        lifeYears: 7,
        resaleMinor: 0,
      }),
    ),
    loans:
      prices.lent === 0
        ? []
        : vehicles.map((vehicle) => loanOf(vehicle, minor(prices.kit * prices.lent), dated(since))),
    accountLines: prices.rentPerDay === 0 ? [] : accountOf(yard, vehicles[0], minor(prices.rentPerDay), today),
    moneyPlans: vehicles.map((vehicle) => ({
      id: `${vehicle.id}/money`,
      v: 1 as const,
      vehicleId: vehicle.id,
      workDaysPerYear: 300,
      kmPerDay: null,
      batteryWhPerKm: null,
      sunShare: null,
      discountPerYear: 0.12,
    })),
  };
}

interface DatedFields {
  readonly v: 1;
  readonly from: CivilDate;
  readonly writtenUtcMs: number;
  readonly currency: string;
  readonly note: string;
}

/** A deposit, a week of rent, one evening short and one line put right afterwards. */
function accountOf(yard: Yard, vehicle: Vehicle | undefined, rentMinor: number, today: CivilDate): AccountLineRecord[] {
  if (!vehicle) return [];
  const line = (daysAgo: number, about: AccountLineRecord["about"], share: number, corrects?: string) => {
    const date = plusDays(today, -daysAgo);
    return {
      id: `${vehicle.id}/account/${date}/${about}${corrects ? "/2" : ""}`,
      v: 1 as const,
      vehicleId: vehicle.id,
      driver: "Day driver",
      date,
      about,
      amountMinor: Math.round(rentMinor * share),
      currency: yard.currency,
      corrects: corrects ?? null,
      writtenUtcMs: Date.parse(date) + 64_800_000 + (corrects ? 60_000 : 0),
      note: "",
    };
  };
  const short = line(3, "payment", 6);
  return [
    line(8, "depositIn", 10),
    ...[7, 6, 5, 4, 3, 2, 1].map((ago) => line(ago, "rent", 1)),
    ...[7, 6, 5, 4, 2, 1].map((ago) => line(ago, "payment", 1)),
    short,
    line(3, "payment", 0.6, short.id),
  ];
}

const loanOf = (vehicle: Vehicle, principalMinor: number, dated: DatedFields): LoanRecord => ({
  ...dated,
  id: `${vehicle.id}/loan`,
  vehicleId: vehicle.id,
  lender: "Harbour savings group",
  principalMinor,
  ratePerYear: 0.16,
  payments: 24,
  every: "month",
  firstDue: plusDays(dated.from, 31),
  method: "reducing",
  feeMinor: 0,
  instalmentMinor: null,
});
