// npm run bench: runs every tests/bench/*.ts that exports `run`, prints one table of ratios and keeps it in results.md.
import { writeFileSync } from "node:fs";
import { cpus, totalmem } from "node:os";
import type { BenchRow } from "./table.js";

interface Timed {
  readonly name: string;
  readonly nsPerCall: number;
  readonly floorNs: number;
  readonly ratio: number;
}
/** A time and the most it may take, null where it is only watched. */
interface Limited {
  readonly name: string;
  readonly ms: number;
  readonly limitMs: number | null;
}
type Row = BenchRow | Timed | Limited;
interface Bench {
  readonly run?: () => readonly Row[];
}

const benches = import.meta.glob<Bench>("./*.ts");
const only = process.argv.slice(2);

const ns = (value: number): string => (value < 1000 ? `${Math.round(value)} ns` : `${(value / 1000).toFixed(1)} us`);
function plain(row: Row): BenchRow {
  if ("took" in row) return row;
  if ("ms" in row) {
    const took = `${row.ms < 10 ? row.ms.toFixed(1) : Math.round(row.ms)} ms`;
    const limit = row.limitMs;
    return {
      name: row.name,
      took,
      against: limit === null ? "" : `${limit} ms wanted`,
      ratio: limit === null ? 0 : row.ms / limit,
    };
  }
  return { name: row.name, took: ns(row.nsPerCall), against: `${ns(row.floorNs)} of bare Math`, ratio: row.ratio };
}

const rows: BenchRow[] = [];
for (const [file, load] of Object.entries(benches)) {
  if (file.endsWith("/main.ts") || (only.length > 0 && !only.some((name) => file.includes(name)))) continue;
  const { run } = await load();
  if (run) rows.push(...run().map(plain));
}

const core = cpus();
const machine = `processor time on ${core.length} cores, ${core[0]?.model ?? "unknown"}, ${Math.round(totalmem() / 2 ** 30)} GB, Node ${process.versions.node}`;
const cells = [
  ["What", "Took", "Held against", "Ratio"],
  ...rows.map(({ name, took, against, ratio }) => [name, took, against, against ? ratio.toFixed(2) : ""]),
];
const widths = [0, 1, 2, 3].map((c) => Math.max(...cells.map((row) => row[c]?.length ?? 0)));
const lineOf = (row: readonly string[]) => `| ${row.map((cell, c) => cell.padEnd(widths[c] ?? 0)).join(" | ")} |`;
const [head = [], ...body] = cells;
const table = [
  `${new Date().toISOString().slice(0, 10)}, ${machine}`,
  "",
  lineOf(head),
  lineOf(widths.map((width) => "-".repeat(width))),
  ...body.map(lineOf),
];
console.log(table.join("\n"));
// A whole run is kept beside the benches, so that a change shows in the history; a run of a few is only printed.
if (only.length === 0) {
  const kept = ["# Last whole run of `npm run bench`", "", ...table, ""];
  writeFileSync("tests/bench/results.md", kept.join("\n"));
}
