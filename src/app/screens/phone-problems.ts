import { kinds } from "../../records/index.js";
import type { Problem } from "../../units/outcome.js";
import { core } from "../words/core.js";
import type { EditWords } from "../words/edit/en.js";
import { editWords } from "../words/edit.js";
import { figures, inDigits, joined } from "../words/format.js";
import type { PhoneWords } from "../words/phone/en.js";
import { phoneWords } from "../words/phone.js";
import { roundsWords } from "../words/rounds.js";
import { sheetWords } from "../words/sheet.js";
import { yardWords } from "../words/yard.js";
import { problemText } from "./edit/problem-text.js";
import { type NumberSpec, shownOf, valueAt } from "./edit/spec.js";
import { faceFields, GROUPS } from "./sheet/fields.js";

/** Words that name the fields of a file; fetched when a file is refused. */
export const PLACE_WORDS = [editWords, sheetWords, yardWords, roundsWords];

/** One place of a file that is not taken: whose, which field, what is wrong there and what to do. */
export interface ToldPlace {
  /** The vehicle, yard, round or day, as a person calls it. Empty for the file as a whole. */
  readonly whose: string;
  readonly field: string;
  readonly what: string;
}

/** `file` is what the text holds, however broken: the names in it tell a person which record is meant. */
export function placeTold(problem: Problem, file: unknown): ToldPlace {
  const [list = "", n = "", ...path] = problem.where.split(".");
  const record = valueAt(file, `${list}.${n}`);
  const row = list === "records" ? (record as { readonly k?: string; readonly f?: unknown } | undefined) : undefined; // of a copy
  const kind = kindName(row ? `${row.k}` : list);
  return {
    whose: kind ? `${kind} ${nameOf(row?.f ?? record) || (n && figures(Number(n) + 1))}`.trim() : list,
    field: kind ? (row ? "" : fieldName(list, path.join("."))) : joined(n, path.join(".")),
    what: whatOf(problem, list, path.join("."), valueAt(file, problem.where)),
  };
}

/** What a person calls the records of a list of a fleet file, or those of a kind in a copy; the books have one word together. */
function kindName(of: string): string | undefined {
  const told: Readonly<Record<string, string>> = phoneWords.now().problems.kinds;
  const name = Object.entries(kinds).find(([kind, { list }]) => kind === of || list === of);
  if (!name) return undefined;
  const { list } = name[1];
  return told[list] ?? (list === "nights" ? core.now().places.tonight : core.now().places.money);
}

const NAMES = ["plate", "name", "date"];
function nameOf(record: unknown): string {
  const names = NAMES.map((name) => valueAt(record, name)).filter((name) => typeof name === "string" && name !== "");
  return String(names[0] ?? valueAt(record, "id") ?? "").slice(0, 40);
}

type Named = Readonly<Record<string, readonly string[]>>;
/** The field as its screen calls it; what has no screen keeps its name in the file. */
function fieldName(list: string, path: string): string {
  if (list === "rounds" && path.startsWith("parts.")) return partField(path);
  const own: Named = list === "yards" ? yardWords.now().fields : list === "vehicles" ? sheetWords.now().fields : {};
  const face = /^roof\.faces\.(\d+)\.(\w+)$/.exec(path);
  const of = path.replace(/^(drive\.gears|airM(?:in|ax))(?:CByMonth)?\.\d+$/, "$1");
  if (face)
    return joined(
      `${sheetWords.now().groups.roof} ${figures(Number(face[1]) + 1)}`,
      own[`face.${face[2]}`]?.[0] ?? face[2],
    );
  return own[of]?.[0] ?? path;
}

function partField(path: string): string {
  const words: Readonly<Record<string, unknown>> = roundsWords.now();
  const [, n = "0", field = ""] = path.split(".");
  const word = words[{ climbM: "climb", dropM: "drop" }[field] ?? field];
  return joined(roundsWords.now().wayNo(Number(n) + 1), typeof word === "string" ? word : field);
}

/** The field's figures as its screen shows them: a share as %, a radius in cm. */
function specOf(list: string, path: string): NumberSpec | undefined {
  if (list !== "vehicles") return undefined;
  const face = /^roof\.faces\.(\d+)\./.exec(path);
  const groups = face ? [faceFields(Number(face[1]))] : Object.values(GROUPS);
  const found = groups.flatMap(({ plain, finer }) => [...plain, ...finer]).find((spec) => spec.path === path);
  return found?.kind === "number" ? found : undefined;
}

function whatOf(problem: Problem, list: string, path: string, found: unknown): string {
  const told = phoneWords.now().problems;
  const spec = specOf(list, path);
  const says = sentenceOf(problem, told, editWords.now(), spec);
  if (typeof found !== "number" && typeof found !== "string") return says;
  const text = typeof found === "number" ? figures(shownOf(spec ?? {}, found), Number.isInteger(found) ? 0 : 2) : found;
  const there = told.found(text.slice(0, 40));
  return `${/\p{P}$/u.test(says) ? says : says + there.at(-1)} ${there}`;
}

function sentenceOf(
  problem: Problem,
  told: PhoneWords["problems"],
  edit: EditWords,
  spec: NumberSpec | undefined,
): string {
  const { code, figures: known = {} } = problem;
  const codes: Readonly<Record<string, string>> = told.codes;
  if (code === "tooLarge") return phoneWords.now().tooLarge;
  if (code === "notOneOf") return told.notOneOf(String(known.allowed ?? "").replaceAll(" ", ", "));
  if (code === "andMore") return told.more(Number(known.count ?? known.more ?? 0));
  const own = Object.hasOwn(codes, code) ? codes[code] : undefined;
  return own ? inDigits(own) : problemText(edit, problem, spec);
}
