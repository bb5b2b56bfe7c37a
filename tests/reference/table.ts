import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

export type Fields = Readonly<Record<string, unknown>>;
export interface Gate {
  readonly abs?: number;
  readonly rel?: number;
  readonly mean?: number;
  readonly max?: number;
}
export interface Case {
  readonly id: string;
  readonly in: Fields;
  readonly want: Fields;
}
export interface Table {
  readonly file: string;
  readonly raw: unknown;
  readonly title: string;
  readonly check: string | null;
  readonly tolerance: Readonly<Record<string, Gate>>;
  readonly cases: readonly Case[];
  readonly data: Fields | null;
}
/** What a check may look up beside its own case: the data tables (drive cycles, factors) of the same folder. */
export interface Context {
  readonly data: readonly { readonly file: string; readonly title: string; readonly data: Fields }[];
}

interface RawTable {
  readonly title: string;
  readonly check?: string;
  readonly tolerance?: Readonly<Record<string, Gate>>;
  readonly cases?: readonly Case[];
  readonly columns?: { readonly in: readonly string[]; readonly want: readonly string[] };
  readonly rows?: readonly (readonly unknown[])[];
  readonly data?: Fields;
}

const pair = (names: readonly string[], values: readonly unknown[]): Fields =>
  Object.fromEntries(names.map((name, i) => [name, values[i]]));

function casesOf(raw: RawTable): readonly Case[] {
  if (raw.cases) return raw.cases;
  const { columns, rows = [] } = raw;
  if (!columns) return [];
  return rows.map((row, i) => ({
    id: `row ${i + 1}`,
    in: pair(columns.in, row),
    want: pair(columns.want, row.slice(columns.in.length)),
  }));
}

function readTable(folder: string, file: string): Table {
  const raw = JSON.parse(readFileSync(join(folder, file), "utf8")) as RawTable;
  return {
    file,
    raw,
    title: raw.title,
    check: raw.check ?? null,
    tolerance: raw.tolerance ?? {},
    cases: casesOf(raw),
    data: raw.data ?? null,
  };
}

/** Every table of a folder and its sub-folders; the schema file beside them is not a table. */
export function tablesOf(folder: string): readonly Table[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".json") && !file.endsWith(".schema.json"))
    .sort()
    .map((file) => readTable(folder, file));
}

export const contextOf = (tables: readonly Table[]): Context => ({
  data: tables.flatMap(({ file, title, data }) => (data ? [{ file, title, data }] : [])),
});

/** Pairs the values of each row of a data table with the names of its columns. */
export const rowsOf = (data: Fields): readonly Fields[] =>
  (data.rows as readonly (readonly unknown[])[]).map((row) => pair(data.columns as readonly string[], row));
