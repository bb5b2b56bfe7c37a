import { allIn, currencyPlaces, type DayLine, energyOnly, type MoneyRow, type Sums } from "../../calc/money/index.js";
import { type CsvForm, csvText, decimalOfMilli, decimalOfMinor, PLAIN_FORM, type Rows } from "./csv.js";

/** Columns of money, in the order a reader adds them up; each with its sign in the all-in line. */
const MONEY: readonly (readonly [head: string, of: (sums: Sums) => number])[] = [
  ["fuelThen", (sums) => sums.fuelThen],
  ["powerNow", (sums) => sums.power],
  ["savedEnergyOnly", energyOnly],
  ["upkeepThen", (sums) => sums.upkeepThen],
  ["upkeepNow", (sums) => sums.upkeepNow],
  ["setAside", (sums) => sums.setAside],
  ["instalment", (sums) => sums.instalment],
  ["rent", (sums) => sums.rent],
  ["insurance", (sums) => sums.insurance],
  ["otherFixed", (sums) => sums.otherFixed],
  ["savedAllIn", allIn],
  ["energyLow", (sums) => sums.energyLow],
  ["energyHigh", (sums) => sums.energyHigh],
  ["allInLow", (sums) => sums.allInLow],
  ["allInHigh", (sums) => sums.allInHigh],
  ["sunWorth", (sums) => sums.sunWorth],
];
const QUANTITIES: readonly (readonly [head: string, of: (sums: Sums) => number])[] = [
  ["km", (sums) => sums.distanceM],
  ["gridKwh", (sums) => sums.gridWh + sums.gridGuessWh],
  ["gridKwhOfThatEstimated", (sums) => sums.gridGuessWh],
  ["sunKwh", (sums) => sums.sunWh + sums.sunGuessWh],
  ["sunKwhOfThatEstimated", (sums) => sums.sunGuessWh],
  ["fuelL", (sums) => sums.fuelMl],
  ["fuelKg", (sums) => sums.fuelG],
  ["fuelCo2Kg", (sums) => sums.fuelCo2G],
  ["gridCo2Kg", (sums) => sums.gridCo2G],
];
const DAYS: readonly (readonly [head: string, of: (sums: Sums) => number])[] = [
  ["days", (sums) => sums.days],
  ["workedDays", (sums) => sums.workedDays],
  ["offRoadDays", (sums) => sums.offRoadDays],
  ["missingDays", (sums) => sums.missingDays],
  ["openDays", (sums) => sums.openDays],
  ["filledDays", (sums) => sums.filledDays],
];

/** Nothing stands in a cell whose figure is not known: a day that is not counted has no amounts but its fixed costs. */
const FIXED = new Set(["instalment", "rent", "insurance", "otherFixed"]);

function cells(sums: Sums, at: { readonly currency: string; readonly sign: "." | ","; readonly known: boolean }) {
  const places = currencyPlaces(at.currency) ?? 0;
  const quantities = QUANTITIES.map(([, of]) => (at.known ? decimalOfMilli(of(sums), at.sign) : ""));
  const money = MONEY.map(([head, of]) =>
    at.known || FIXED.has(head) ? decimalOfMinor(of(sums), places, at.sign) : "",
  );
  return [...quantities, ...money];
}
const heads = (columns: readonly (readonly [string, unknown])[]): readonly string[] => columns.map(([head]) => head);

/** Day lines of vehicles as a table, one line a day, so that anybody can add them up again. */
export function dayLinesCsv(
  vehicles: readonly { readonly plate: string; readonly lines: readonly DayLine[] }[],
  form: CsvForm = PLAIN_FORM,
): string {
  const head = [
    "date",
    "vehicle",
    "state",
    "counted",
    "filled",
    "currency",
    ...heads(QUANTITIES),
    ...heads(MONEY),
    "gaps",
  ];
  const rows: Rows = vehicles.flatMap(({ plate, lines }) =>
    lines.map((line) => [
      line.date,
      plate,
      line.state,
      line.counted ? "yes" : "no",
      line.sums.filledDays > 0 ? "yes" : "no",
      line.currency,
      ...cells(line.sums, { currency: line.currency, sign: form.decimalSign, known: line.counted }),
      line.gaps.join(" "),
    ]),
  );
  return csvText([head, ...rows], form.separator);
}

/** Months or vehicles of a fleet as a table. */
export function moneyRowsCsv(
  keyHead: "month" | "vehicle",
  rows: readonly MoneyRow[],
  form: CsvForm = PLAIN_FORM,
): string {
  const head = [keyHead, "currency", ...heads(DAYS), ...heads(QUANTITIES), ...heads(MONEY)];
  const body = rows.map(({ key, currency, sums }) => [
    key,
    currency,
    ...DAYS.map(([, of]) => String(of(sums))),
    ...cells(sums, { currency, sign: form.decimalSign, known: true }),
  ]);
  return csvText([head, ...body], form.separator);
}
