import { type RateAnswer, yearlyRates } from "./rate.js";
import { type YearTerms, yearMoney } from "./saving.js";
import { discountedPaybackYears, netPresentValue, paybackYears } from "./worth.js";

/** Money of a purchase over its life: what is paid at the start, then the years. */
export interface Worth {
  readonly flowsFromYear0: readonly number[];
  readonly npv: number;
  readonly rate: RateAnswer;
  readonly paybackYears: number | null;
  readonly discountedPaybackYears: number | null;
}

export interface Purchase {
  readonly price: number;
  readonly lifeYears: number;
  readonly ratePerYear: number;
  /** What it still fetches at the end. */
  readonly resale: number;
}

/**
 * Year-end flows of a purchase: the price, then each year's saving with a new set bought in the year the old one is worn out
 * (not put aside per km: that would count it twice), and the resale in the last year. Life in whole years.
 */
export function flowsOf(terms: YearTerms, purchase: Purchase): readonly number[] {
  const year = yearMoney(terms);
  const beforeSet = year.allIn + year.setAside;
  const setYears = year.km > 0 ? Math.min(terms.setLifeYears, terms.setLifeKm / year.km) : terms.setLifeYears;
  const flows = Array.from({ length: purchase.lifeYears + 1 }, (_, i) => (i === 0 ? -purchase.price : beforeSet));
  for (let n = 1; n * setYears < purchase.lifeYears; n++) {
    const at = Math.ceil(n * setYears);
    flows[at] = (flows[at] ?? 0) - (terms.setPrice - terms.setScrap);
  }
  flows[purchase.lifeYears] = (flows[purchase.lifeYears] ?? 0) + purchase.resale;
  return flows;
}

export const worthOf = (flowsFromYear0: readonly number[], ratePerYear: number): Worth => ({
  flowsFromYear0,
  npv: netPresentValue(ratePerYear, flowsFromYear0),
  rate: yearlyRates(flowsFromYear0),
  paybackYears: paybackYears(flowsFromYear0),
  discountedPaybackYears: discountedPaybackYears(ratePerYear, flowsFromYear0),
});

/** A kit that could be had instead: a second set, a bigger roof, lithium. Sizing says how the vehicle's figures would then be. */
export interface KitChange {
  readonly name: "secondSet" | "biggerRoof" | "lithium";
  readonly extraPrice: number;
  readonly changed: Partial<
    Pick<
      YearTerms,
      | "kmPerDay"
      | "workDaysPerYear"
      | "batteryWhPerKm"
      | "sunShare"
      | "gridToBatteryEfficiency"
      | "setPrice"
      | "setScrap"
      | "setLifeKm"
      | "setLifeYears"
      | "fixedPerYear"
    >
  >;
}
export interface ChangeWorth extends Worth {
  readonly name: KitChange["name"];
  /** More (or less) all-in saving a year than today. */
  readonly morePerYear: number;
  readonly pays: boolean;
}

/** What a change of kit would bring beside today's: its extra price against the difference of the years. */
export function changeWorth(
  terms: YearTerms,
  change: KitChange,
  over: Omit<Purchase, "price" | "resale">,
): ChangeWorth {
  const other: YearTerms = { ...terms, ...change.changed };
  const plain = { ...over, price: 0, resale: 0 };
  const now = flowsOf(terms, plain);
  const flows = flowsOf(other, plain).map((flow, year) => (year === 0 ? -change.extraPrice : flow - (now[year] ?? 0)));
  const worth = worthOf(flows, over.ratePerYear);
  return {
    ...worth,
    name: change.name,
    morePerYear: yearMoney(other).allIn - yearMoney(terms).allIn,
    pays: worth.npv > 0,
  };
}

/** A year of a kit as sizing works it out: units the roof brought into the set, and units used out of it. [kWh] */
export interface SizedYear {
  readonly sunKwh: number;
  readonly usedKwh: number;
}

/** How many times as far a lithium set goes as a lead-acid one of its size: common practice, no source; the owner's own figure counts before it. */
export const LITHIUM_LIFE_TIMES = 4;

/**
 * A change of kit out of two sized years, the present kit's and the other's. Shares of the sun and use per km move as sizing says they do,
 * from what the vehicle's own book shows; two sets share the km and so go twice as far, at twice the price.
 */
export function changeBySizing(
  terms: YearTerms,
  change: { readonly name: KitChange["name"]; readonly extraPrice: number; readonly setPrice?: number },
  years: { readonly now: SizedYear; readonly other: SizedYear },
): KitChange {
  const share = ({ sunKwh, usedKwh }: SizedYear) => (usedKwh > 0 ? sunKwh / usedKwh : 0);
  const more = share(years.other) - share(years.now);
  const heavier = years.now.usedKwh > 0 ? years.other.usedKwh / years.now.usedKwh : 1;
  const energy = {
    sunShare: Math.min(1, Math.max(0, terms.sunShare + more)),
    batteryWhPerKm: terms.batteryWhPerKm * heavier,
  };
  const { name, extraPrice } = change;
  if (name === "biggerRoof") return { name, extraPrice, changed: energy };
  const setPrice = change.setPrice ?? (name === "secondSet" ? 2 * terms.setPrice : terms.setPrice + extraPrice);
  const times = name === "secondSet" ? 2 : LITHIUM_LIFE_TIMES;
  return {
    name,
    extraPrice,
    changed: {
      ...energy,
      setPrice,
      setScrap: name === "secondSet" ? 2 * terms.setScrap : terms.setScrap,
      setLifeKm: terms.setLifeKm * times,
      setLifeYears: name === "secondSet" ? terms.setLifeYears : terms.setLifeYears * times,
    },
  };
}
