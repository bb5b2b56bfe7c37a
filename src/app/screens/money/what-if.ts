import {
  type ChangeWorth,
  changeBySizing,
  changeWorth,
  type KitChange,
  type SizedYear,
} from "../../../calc/money/index.js";
import type { SizingCell } from "../../../calc/sizing/index.js";
import type { Round, Vehicle, Yard } from "../../../records/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { askSizing } from "../../../work/sizing-call.js";

/** Years of weather to draw: enough for a mean, few enough for a phone. */
const YEARS = 4;
const WEEKS = 52;

const sized = (cell: SizingCell): SizedYear => ({
  sunKwh: cell.months.reduce((sum, { sunTakenKwh }) => sum + sunTakenKwh, 0),
  usedKwh: cell.months.reduce((sum, { usedKwh }) => sum + usedKwh, 0),
});

const nearest = (cells: readonly SizingCell[], roofW: number, packWh: number): SizingCell | undefined =>
  [...cells].sort((a, b) => far(a, roofW, packWh) - far(b, roofW, packWh))[0];
const far = (cell: SizingCell, roofW: number, packWh: number): number =>
  Math.abs(cell.roofW / Math.max(1, roofW) - 1) + Math.abs(cell.packWh / packWh - 1);

/** How much larger a roof or set is tried. */
const ROOF_TIMES = 1.5;

/** What another kit would bring, worked out by sizing a year of it beside the present one; null when no year can be sized. */
export async function tryChange(
  of: { readonly book: MoneyBook; readonly yard: Yard; readonly round: Round; readonly discountPerYear: number },
  change: { readonly name: KitChange["name"]; readonly extraPrice: number },
  watch: { readonly signal: AbortSignal; readonly onShare: (share: number) => void },
): Promise<ChangeWorth | null> {
  const { book, yard, round } = of;
  if (!book.year.ok) return null;
  const { vehicle } = book;
  const { terms } = book.year.value;
  const workDaysPerWeek = Math.min(7, Math.max(1, Math.round(terms.workDaysPerYear / WEEKS)));
  const question = { yard, vehicle, round, workDaysPerWeek, plugTo: "need" as const, years: YEARS };
  const now = await askSizing({ input: question, ...watch });
  if (!now.ok) return null;
  const roofW = vehicle.roof.faces.reduce((sum, face) => sum + face.ratedW, 0);
  const packWh = vehicle.battery.nominalV * vehicle.battery.ratedAh;
  const present = nearest(now.value.cells, roofW, packWh);
  const other =
    change.name === "lithium"
      ? await lithiumCell({ ...question, vehicle: asLithium(vehicle) }, watch, roofW, packWh)
      : nearest(
          now.value.cells,
          change.name === "biggerRoof" ? biggerThan(now.value.cells, roofW) : roofW,
          change.name === "secondSet" ? 2 * packWh : packWh,
        );
  if (!present || !other) return null;
  const made = changeBySizing(terms, change, { now: sized(present), other: sized(other) });
  const lifeYears = Math.max(1, Math.round(book.payback?.of.lifeYears ?? 7));
  return changeWorth(terms, made, { lifeYears, ratePerYear: of.discountPerYear });
}

const biggerThan = (cells: readonly SizingCell[], roofW: number): number =>
  roofW > 0 ? roofW * ROOF_TIMES : Math.max(...cells.map((cell) => cell.roofW));

async function lithiumCell(
  question: Parameters<typeof askSizing>[0]["input"],
  watch: { readonly signal: AbortSignal; readonly onShare: (share: number) => void },
  roofW: number,
  packWh: number,
): Promise<SizingCell | undefined> {
  const year = await askSizing({ input: question, ...watch });
  return year.ok ? nearest(year.value.cells, roofW, packWh) : undefined;
}

/** The same vehicle on a new lithium set of its size: hardly any loss at high current, no full charges for the set's own sake. */
const asLithium = (vehicle: Vehicle): Vehicle => ({
  ...vehicle,
  battery: { ...vehicle.battery, chemistry: "lfp", health: 1, peukertExponent: 1.03, fullChargeEveryDays: null },
});
