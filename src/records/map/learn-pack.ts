import { newLearned, PARTS, type VehicleLearned } from "../../calc/learn/parts.js";
import { newPlaceSky, type PlaceSky } from "../../calc/learn/sky.js";

/** Figures are kept to seven places: further ones are noise of the arithmetic. */
const short = (value: number): number => Number(value.toPrecision(7));
const rounded = (_key: string, value: unknown): unknown =>
  typeof value === "number" && !Number.isInteger(value) ? short(value) : value;

/** What was learned of a vehicle as one short text: of the covariance, which is symmetric, only the upper half. */
export function packVehicle({ belief, ...rest }: VehicleLearned): string {
  const n = belief.mean.length;
  const upper = belief.cov.filter((_, k) => k % n >= Math.floor(k / n));
  return JSON.stringify({ ...rest, belief: [belief.mean, upper] }, rounded);
}

/** The same back; null when it was packed by another version of the learning, or is broken: then the log has to be learned anew. */
export function unpackVehicle(text: string | null): VehicleLearned | null {
  const raw = parsed(text, newLearned(""));
  const [mean, upper] = Array.isArray(raw?.belief) ? (raw.belief as unknown[]) : [];
  const n = PARTS.length;
  if (!raw || !areNumbers(mean, n) || !areNumbers(upper, (n * (n + 1)) / 2)) return null;
  return { ...(raw as unknown as VehicleLearned), belief: { mean, cov: wholeOf(upper, n) } };
}

function wholeOf(upper: readonly number[], n: number): number[] {
  const at = (row: number, column: number) => upper[(row * (2 * n - row - 1)) / 2 + column] as number;
  return Array.from({ length: n * n }, (_, k) => {
    const [row, column] = [Math.floor(k / n), k % n];
    return row <= column ? at(row, column) : at(column, row);
  });
}

export const packPlace = (place: PlaceSky): string => JSON.stringify(place, rounded);

export function unpackPlace(text: string | null): PlaceSky | null {
  const raw = parsed(text, newPlaceSky(""));
  return raw && Array.isArray(raw.byMonth) && raw.byMonth.length === 12 ? (raw as unknown as PlaceSky) : null;
}

/** An object with every field that `like` has, of the same version. */
function parsed(text: string | null, like: object): Readonly<Record<string, unknown>> | null {
  if (text === null) return null;
  try {
    const raw: unknown = JSON.parse(text);
    if (typeof raw !== "object" || raw === null) return null;
    const found = raw as Readonly<Record<string, unknown>>;
    const whole = Object.keys(like).every((key) => Object.hasOwn(found, key));
    return whole && found.v === (like as { readonly v?: unknown }).v ? found : null;
  } catch {
    return null;
  }
}

const areNumbers = (list: unknown, length: number): list is readonly number[] =>
  Array.isArray(list) && list.length === length && list.every((value) => Number.isFinite(value));
