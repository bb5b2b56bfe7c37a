import type { Case, Fields, Gate, Table } from "./table.js";

/** Stands in a list for an element that the table's own text leaves out of the comparison (as the sun below five degrees). */
export const notCompared = Symbol("not compared");

export interface Comparison {
  readonly failures: readonly string[];
  /** Mean and largest absolute error by field of numbers, and the largest share of what the gates allow. */
  readonly errors: Readonly<Record<string, FieldErrors>>;
}
interface FieldErrors {
  readonly mean: number;
  readonly max: number;
  readonly count: number;
  readonly used: number;
}

interface Found {
  readonly failures: string[];
  readonly errors: Map<string, number[]>;
  /** Largest share of the allowed error by field, of single values. */
  readonly used: Map<string, number>;
  skipped: number;
  compared: number;
}
interface Spot {
  readonly of: Case;
  readonly field: string;
  readonly place: string;
  readonly gate: Gate | undefined;
}

/** `azimuthDeg` the short way round the circle times sin(zenith) of the case: the angle on the sky. */
function azimuthError(want: number, got: number, of: Case): number {
  const zenith = [...Object.entries(of.want), ...Object.entries(of.in)].find(([name]) => /^zenith.*Deg$/.test(name));
  const short = Math.abs(((((got - want) % 360) + 540) % 360) - 180);
  return short * Math.sin((Number(zenith?.[1] ?? 90) * Math.PI) / 180);
}

function compareNumber(want: number, got: unknown, spot: Spot, found: Found): void {
  const say = (why: string) =>
    found.failures.push(`${spot.of.id} ${spot.place}: want ${want}, got ${String(got)}${why}`);
  if (typeof got !== "number" || !Number.isFinite(got)) {
    say("");
    return;
  }
  const error = spot.field === "azimuthDeg" ? azimuthError(want, got, spot.of) : Math.abs(got - want);
  found.errors.set(spot.field, [...(found.errors.get(spot.field) ?? []), error]);
  const { abs, rel, mean, max } = spot.gate ?? {};
  if (abs === undefined && rel === undefined && (mean !== undefined || max !== undefined)) return;
  const allowed = Math.max(abs ?? 0, (rel ?? 0) * Math.abs(want));
  found.used.set(spot.field, Math.max(found.used.get(spot.field) ?? 0, error === 0 ? 0 : error / allowed));
  if (error > allowed) say(` (off by ${error.toPrecision(3)}, allowed ${allowed.toPrecision(3)})`);
}

function compareList(want: readonly unknown[], got: unknown, spot: Spot, found: Found): void {
  if (!Array.isArray(got) || got.length !== want.length) {
    found.failures.push(`${spot.of.id} ${spot.place}: want a list of ${want.length}, got ${JSON.stringify(got)}`);
    return;
  }
  want.forEach((each, i) => {
    if (each === null) return; // no measurement
    if (got[i] === notCompared) found.skipped++;
    else compareValue(each, got[i], { ...spot, place: `${spot.place}[${i}]` }, found);
  });
}

function compareValue(want: unknown, got: unknown, spot: Spot, found: Found): void {
  if (typeof want === "number") {
    found.compared++;
    compareNumber(want, got, spot, found);
  } else if (Array.isArray(want)) compareList(want, got, spot, found);
  else if (want !== null && typeof want === "object") {
    for (const [name, each] of Object.entries(want))
      compareValue(each, (got as Fields | undefined)?.[name], { ...spot, place: `${spot.place}.${name}` }, found);
  } else if ((got ?? null) !== want)
    found.failures.push(`${spot.of.id} ${spot.place}: want ${JSON.stringify(want)}, got ${JSON.stringify(got)}`);
  else found.compared++;
}

function wholeTable(table: Table, errors: Comparison["errors"]): string[] {
  return Object.entries(table.tolerance).flatMap(([field, gate]) => {
    const error = errors[field];
    if (!error) return [];
    const over = (name: "mean" | "max") =>
      gate[name] !== undefined && error[name] > gate[name]
        ? [`${field}: ${name} error ${error[name].toPrecision(4)}, allowed ${gate[name]}`]
        : [];
    return [...over("mean"), ...over("max")];
  });
}

function fieldErrors(
  errors: readonly number[],
  used: number,
  { mean: meanGate, max: maxGate }: Gate = {},
): FieldErrors {
  const mean = errors.reduce((a, b) => a + b, 0) / errors.length;
  const max = Math.max(...errors);
  const whole = [meanGate === undefined ? 0 : mean / meanGate, maxGate === undefined ? 0 : max / maxGate];
  return { mean, max, count: errors.length, used: Math.max(used, ...whole) };
}

/** Compares the answers to the cases of a table by the rules of the tables' README. */
export function compare(table: Table, answers: readonly Fields[]): Comparison {
  const found: Found = { failures: [], errors: new Map(), used: new Map(), skipped: 0, compared: 0 };
  table.cases.forEach((of, i) => {
    for (const [field, want] of Object.entries(of.want))
      compareValue(want, answers[i]?.[field], { of, field, place: field, gate: table.tolerance[field] }, found);
  });
  if (found.compared === 0) found.failures.push("nothing was compared");
  if (found.skipped > found.compared / 3) found.failures.push(`${found.skipped} values left out: too many`);
  const errors = Object.fromEntries(
    [...found.errors].map(([field, list]) => [
      field,
      fieldErrors(list, found.used.get(field) ?? 0, table.tolerance[field]),
    ]),
  );
  return { failures: [...found.failures, ...wholeTable(table, errors)], errors };
}
