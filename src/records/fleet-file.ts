import { bad, good, type Outcome, type Problem } from "../units/outcome.js";
import { checkFleet } from "./check-fleet.js";
import { FLEET_FORMAT, FLEET_VERSION, type Fleet, type FleetLists } from "./fleet.js";
import type { Old } from "./kind.js";
import { type KindName, kindNames, kinds } from "./kinds.js";
import { readRecord } from "./read.js";

/** More places than this help nobody; the last problem then says how many more there are. */
const MOST_PROBLEMS = 200;
const LONGEST_TITLE = 120;

/** Steps of the file itself; records climb by their own steps. Version 0 was the draft format, in which a yard was a depot. */
const CLIMB_FILE: Readonly<Record<number, (old: Old) => Old>> = {
  0: ({ depots, demo, ...rest }) => ({
    ...rest,
    version: 1,
    ...(depots === undefined ? {} : { yards: depots }),
    invented: demo ?? false,
  }),
};

/**
 * A fleet out of the text of a file, or out of what such a text holds. Strict: one broken, unknown or dangling part and nothing is taken;
 * the problems then name every place. A list that is absent is empty.
 */
export function readFleetFile(from: unknown): Outcome<Fleet> {
  const opened = openFile(from);
  if (!opened.ok) return opened;
  const { fleet, lists, problems } = readWhole(opened.value);
  const all = [...problems, ...crossProblems(fleet, lists)];
  return all.length > 0 ? bad(...shortened(all)) : good(fleet);
}

/** The same without the questions that need all records at once: for a backup, which may hold history of a vehicle that is gone. */
export function readFleetLists(from: unknown): Outcome<Fleet> {
  const opened = openFile(from);
  if (!opened.ok) return opened;
  const { fleet, problems } = readWhole(opened.value);
  return problems.length > 0 ? bad(...shortened(problems)) : good(fleet);
}

interface ReadWhole {
  /** What could be read; whole when there are no problems. */
  readonly fleet: Fleet;
  readonly lists: readonly ReadList[];
  readonly problems: readonly Problem[];
}

function readWhole(file: Old): ReadWhole {
  const lists = kindNames.map((kind) => readList(kind, file));
  const { title, invented } = file as { title: string; invented: boolean };
  const read = Object.fromEntries(lists.map((list) => [kinds[list.kind].list, list.records]));
  return {
    fleet: { format: FLEET_FORMAT, version: FLEET_VERSION, title, invented, ...(read as unknown as FleetLists) },
    lists,
    problems: [...readHead(file), ...lists.flatMap((list) => list.problems)],
  };
}

/**
 * What the readable records say of each other, at their places in the file. A record that is there but broken is no stray: its own
 * problems are told already.
 */
function crossProblems(fleet: Fleet, lists: readonly ReadList[]): Problem[] {
  const broken = new Set(lists.flatMap((list) => list.brokenIds));
  const placesOf = new Map<string, readonly number[]>(lists.map((list) => [kinds[list.kind].list, list.places]));
  return checkFleet(fleet).errors.flatMap((problem) => {
    if (problem.code.startsWith("noSuch") && broken.has(String(problem.figures?.found))) return [];
    const [list = "", n = "", ...rest] = problem.where.split(".");
    return [{ ...problem, where: [list, placesOf.get(list)?.[Number(n)] ?? n, ...rest].join(".") }];
  });
}

/** The text of a fleet file; reading it gives the same fleet back. */
export const writeFleetFile = (fleet: Fleet): string => `${JSON.stringify(fleet, null, 1)}\n`;

function openFile(from: unknown): Outcome<Old> {
  const parsed = typeof from === "string" ? parseJson(from) : good(from);
  if (!parsed.ok) return parsed;
  let file = parsed.value as Old;
  if (typeof file !== "object" || file === null || Array.isArray(file)) return bad({ code: "notAFleet", where: "" });
  if (file.format !== FLEET_FORMAT) return bad({ code: "notAFleet", where: "format" });
  const found = file.version;
  if (typeof found !== "number" || !Number.isInteger(found)) return bad({ code: "missing", where: "version" });
  const figures = { found, known: FLEET_VERSION };
  if (found > FLEET_VERSION) return bad({ code: "newerVersion", where: "version", figures });
  for (let version = found; version < FLEET_VERSION; version++) {
    const step = CLIMB_FILE[version];
    if (!step) return bad({ code: "unknownVersion", where: "version", figures });
    file = step(file);
  }
  return good(file);
}

function parseJson(text: string): Outcome<unknown> {
  try {
    return good(JSON.parse(text.replace(/^\uFEFF/, "")));
  } catch (why) {
    return bad({
      code: "notJson",
      where: "",
      figures: { says: why instanceof Error ? why.message.slice(0, 120) : "" },
    });
  }
}

function readHead(file: Old): Problem[] {
  const expected = new Set(["format", "version", "title", "invented", ...kindNames.map((kind) => kinds[kind].list)]);
  const unknown = Object.keys(file).filter((key) => !expected.has(key));
  const { title, invented } = file;
  return [
    ...unknown.map((key) => ({ code: "unknownField", where: key })),
    ...(typeof title === "string" && title.length <= LONGEST_TITLE ? [] : [{ code: "badForm", where: "title" }]),
    ...(typeof invented === "boolean" ? [] : [{ code: "wrongType", where: "invented" }]),
  ];
}

interface ReadList {
  readonly kind: KindName;
  readonly records: readonly unknown[];
  /** Place in the file of each of them. */
  readonly places: readonly number[];
  readonly brokenIds: readonly string[];
  readonly problems: readonly Problem[];
}

function readList(kind: KindName, file: Old): ReadList {
  const list = kinds[kind].list;
  const raw = file[list] ?? [];
  if (!Array.isArray(raw))
    return { kind, records: [], places: [], brokenIds: [], problems: [{ code: "wrongType", where: list }] };
  const records: unknown[] = [];
  const places: number[] = [];
  const brokenIds: string[] = [];
  const problems: Problem[] = [];
  raw.forEach((item: unknown, n) => {
    const seen = readRecord(kind, item);
    if (seen.ok) {
      records.push(seen.value);
      places.push(n);
      return;
    }
    brokenIds.push(String((item as { readonly id?: unknown } | null)?.id ?? ""));
    if (problems.length <= MOST_PROBLEMS)
      for (const problem of seen.problems) problems.push({ ...problem, where: placed(`${list}.${n}`, problem.where) });
  });
  return { kind, records, places, brokenIds, problems };
}

const placed = (at: string, where: string): string => (where === "" ? at : `${at}.${where}`);

function shortened(problems: readonly Problem[]): readonly Problem[] {
  if (problems.length <= MOST_PROBLEMS) return problems;
  const more = problems.length - MOST_PROBLEMS;
  return [...problems.slice(0, MOST_PROBLEMS), { code: "andMore", where: "", figures: { more } }];
}
