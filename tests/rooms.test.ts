import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, normalize } from "node:path";
import { expect, test } from "vitest";

/** Rooms a room may reach for, and packages it may use. Within calc each subject is a room of its own. */
const MAY: Readonly<Record<string, readonly string[]>> = {
  units: ["@date-fns/tz"],
  "calc/sun": ["units", "suncalc"],
  "calc/roof": ["units", "calc/sun"],
  "calc/road": ["units"],
  "calc/battery": ["units"],
  "calc/day": ["units", "calc/sun", "calc/roof", "calc/road", "calc/battery"],
  "calc/yard": ["units", "calc/battery", "calc/day"],
  "calc/money": ["units", "date-fns"],
  "calc/learn": ["units", "calc/sun", "calc/roof", "calc/battery", "calc/day"],
  "calc/sizing": ["units", "calc/sun", "calc/roof", "calc/road", "calc/battery", "calc/day"],
  records: ["units", "calc", "zod"],
  store: ["units", "calc", "records", "idb"],
  work: ["units", "calc", "records"],
  app: ["units", "calc", "records", "store", "work", "shared", "preact", "@preact/signals", "chart.js", "zod"],
  cli: ["units", "calc", "records", "shared"],
};
const REACHED = /(?:\bfrom\s+|\bimport\s*\(?\s*|\bnew URL\(\s*)["']([^"']+)["']/g;

const files = readdirSync("src", { recursive: true, encoding: "utf8" }).filter((file) => /\.tsx?$/.test(file));
const source = (file: string) => readFileSync(join("src", file), "utf8");

function roomOf(path: string): string {
  const [first = "", second = ""] = path.split("/");
  if (first === "..") return second; // outside src: shared/
  return first === "calc" ? `${first}/${second}` : first;
}

function goals(file: string): string[] {
  return [...source(file).matchAll(REACHED)].map(([, to = ""]) => {
    if (to.startsWith("/")) return roomOf(to.slice(1));
    if (to.startsWith(".")) return roomOf(normalize(join(dirname(file), to)));
    return /^((?:@[^/]+\/)?[^/]+)/.exec(to)?.[1] ?? to;
  });
}

function strays(file: string): string[] {
  const room = roomOf(file);
  const may = MAY[room] ?? [];
  const ok = (goal: string) =>
    goal === room ||
    may.includes(goal) ||
    (goal.startsWith("calc/") && may.includes("calc")) ||
    goal.startsWith("node:");
  return goals(file)
    .filter((goal) => !ok(goal) || (goal.startsWith("node:") && room !== "cli"))
    .map((goal) => `${file} -> ${goal}`);
}

test("every import runs one way, lazily loaded and worker files included", () => {
  expect(files.flatMap(strays)).toEqual([]);
});

test("the guard has looked", () => {
  expect(files.length).toBeGreaterThan(10);
  expect(files.flatMap(goals).length).toBeGreaterThan(30);
  expect(files.filter((file) => MAY[roomOf(file)] === undefined)).toEqual([]);
});

test("calculating rooms have no clock, dice or network of their own; screens the compiler keeps out", () => {
  const banned = /\bDate\.now\(|\bnew Date\(\)|Math\.random|\bfetch\(/;
  const pure = files.filter((file) => file.startsWith("calc/") || file.startsWith("units/"));
  expect(pure.length).toBeGreaterThan(10);
  expect(pure.filter((file) => banned.test(source(file)))).toEqual([]);
});

test("paths named in our docs exist", () => {
  const named = ["README.md", "DEVELOPERS.md"].flatMap((doc) =>
    [...readFileSync(doc, "utf8").matchAll(/`((?:src|tests|shared|public|\.ci)\/[\w./-]*[\w/])`/g)].map(
      (found) => found[1] ?? "",
    ),
  );
  expect(named.length).toBeGreaterThan(5);
  expect(named.filter((path) => !existsSync(path))).toEqual([]);
});
