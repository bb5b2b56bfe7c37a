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
  const then: YearTerms = { ...terms, ...change.changed };
  const plain = { ...over, price: 0, resale: 0 };
  const now = flowsOf(terms, plain);
  const flows = flowsOf(then, plain).map((flow, year) => (year === 0 ? -change.extraPrice : flow - (now[year] ?? 0)));
  const worth = worthOf(flows, over.ratePerYear);
  return {
    ...worth,
    name: change.name,
    morePerYear: yearMoney(then).allIn - yearMoney(terms).allIn,
    pays: worth.npv > 0,
  };
}
