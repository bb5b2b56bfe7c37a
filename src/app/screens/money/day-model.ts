import { allIn, type DayLine, energyOnly, type Gap, type Minor } from "../../../calc/money/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { plusDays } from "../../../units/zone.js";

/** A day as the first money screen shows it. */
export interface DayShown {
  readonly date: string;
  readonly state: "counted" | "open" | "missing" | "offRoad" | "rest" | "none";
  readonly gaps: readonly Gap[];
  readonly km: number;
  readonly units: number;
  readonly fuelThen: Minor;
  readonly power: Minor;
  readonly energy: { readonly low: Minor; readonly likely: Minor; readonly high: Minor };
  readonly allIn: { readonly low: Minor; readonly likely: Minor; readonly high: Minor };
}

const NOTHING = { low: 0, likely: 0, high: 0 };

export function dayShown(book: MoneyBook, date: string): DayShown {
  const line = book.lines.find((each) => each.date === date);
  return line ? shownOf(line) : nothingOn(date);
}

/** A day before the first line or after the last one. */
export const nothingOn = (date: string): DayShown => ({
  date,
  state: "none",
  gaps: [],
  km: 0,
  units: 0,
  fuelThen: 0,
  power: 0,
  energy: NOTHING,
  allIn: NOTHING,
});

export function shownOf(line: DayLine): DayShown {
  const { date, sums } = line;
  return {
    date,
    state: stateOf(line),
    gaps: line.gaps,
    km: sums.distanceM / 1000,
    units: (sums.gridWh + sums.gridGuessWh) / 1000,
    fuelThen: sums.fuelThen,
    power: sums.power,
    energy: { low: sums.energyLow, likely: energyOnly(sums), high: sums.energyHigh },
    allIn: { low: sums.allInLow, likely: allIn(sums), high: sums.allInHigh },
  };
}

function stateOf(line: DayLine): DayShown["state"] {
  if (line.state === "missing") return "missing";
  if (!line.counted) return "open";
  return line.state === "worked" ? "counted" : line.state;
}

/** Yesterday and today of a vehicle; today is empty until somebody wrote it. */
export const twoDays = (book: MoneyBook, today: string): readonly [DayShown, DayShown] => [
  dayShown(book, plusDays(today, -1)),
  dayShown(book, today),
];

/** The day to speak of: today once it is written, else yesterday. */
export const spokenDay = ([yesterday, today]: readonly [DayShown, DayShown]): DayShown =>
  today.state === "none" ? yesterday : today;
