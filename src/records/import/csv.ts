import { bad, good, type Outcome } from "../../units/outcome.js";
import type { CsvForm, Rows } from "../export/csv.js";

/**
 * Rows of a text in the form of RFC 4180; bare LF ends a line too, a byte-order mark and empty last lines are passed over.
 * Problem: `csvQuote` with the line in which a quote was opened and never closed, or closed in the middle of a cell.
 */
export function csvRows(text: string, separator: string): Outcome<Rows> {
  const rows: string[][] = [];
  let row: string[] = [];
  let line = 1;
  let at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  while (at <= text.length) {
    const cell = text[at] === '"' ? quotedCell(text, at) : bareCell(text, at, separator);
    if (!cell) return bad({ code: "csvQuote", where: `lines.${line}` });
    row.push(cell.value);
    line += cell.lines;
    at = cell.end;
    if (text[at] === separator) {
      at++;
      continue;
    }
    const end = endOfLine(text, at);
    if (end === at && at < text.length) return bad({ code: "csvQuote", where: `lines.${line}` });
    if (row.length > 1 || row[0] !== "") rows.push(row);
    row = [];
    line++;
    at = at >= text.length ? text.length + 1 : end;
  }
  return good(rows);
}

function endOfLine(text: string, at: number): number {
  if (text[at] === "\r" && text[at + 1] === "\n") return at + 2;
  return text[at] === "\n" || text[at] === "\r" ? at + 1 : at;
}

function bareCell(text: string, from: number, separator: string) {
  let end = from;
  while (end < text.length && text[end] !== separator && text[end] !== "\n" && text[end] !== "\r") end++;
  return { value: text.slice(from, end), end, lines: 0 };
}

function quotedCell(text: string, from: number) {
  let value = "";
  let start = from + 1;
  while (true) {
    const quote = text.indexOf('"', start);
    if (quote < 0) return null;
    value += text.slice(start, quote);
    if (text[quote + 1] !== '"') return { value, end: quote + 1, lines: value.split("\n").length - 1 };
    value += '"';
    start = quote + 2;
  }
}

/** The separator that cuts the first lines into most, and equally many, cells. */
export function separatorOf(text: string): CsvForm["separator"] {
  const lines = text.split(/\r?\n/, 6).filter((line) => line !== "");
  const score = (separator: string): number => {
    const counts = lines.map((line) => line.replace(/"[^"]*"/g, "").split(separator).length);
    const same = counts.every((count) => count === counts[0]);
    return same ? (counts[0] ?? 1) : 1;
  };
  const [best] = ([";", "\t", ","] as const)
    .map((separator) => ({ separator, score: score(separator) }))
    .sort((a, b) => b.score - a.score);
  return best && best.score > 1 ? best.separator : ",";
}

const ZEROS = [0x30, 0x660, 0x6f0, 0x966, 0x9e6]; // Latin, Arabic, Persian and Urdu, Devanagari, Bengali
/** Digits of the languages of the app as 0-9, and the Arabic decimal and group signs as comma-free ones. */
export const latinDigits = (text: string): string =>
  [...text]
    .map((sign) => {
      const code = sign.codePointAt(0) ?? 0;
      const zero = ZEROS.find((start) => code >= start && code <= start + 9);
      return zero === undefined ? sign : String(code - zero);
    })
    .join("")
    .replaceAll("\u066b", ".")
    .replaceAll("\u066c", " ");

/** What a column of numbers says about its decimal sign. */
export type SignSeen = "point" | "comma" | "either" | "unclear" | "mixed";

/**
 * The decimal sign of some cells. `either`: no cell has a sign; `unclear`: "1,234" could be both, so ask; `mixed`: cells disagree.
 */
export function decimalSignOf(cells: readonly string[]): SignSeen {
  const seen = new Set(cells.map(signOfCell));
  if (seen.has("point") && seen.has("comma")) return "mixed";
  return (["point", "comma", "unclear"] as const).find((sign) => seen.has(sign)) ?? "either";
}

/** The later of two different signs is the decimal one; a sign standing twice groups; one sign before three digits could be either. */
function signOfCell(raw: string): Exclude<SignSeen, "mixed"> {
  const cell = latinDigits(raw).trim();
  const [point, comma] = [cell.lastIndexOf("."), cell.lastIndexOf(",")];
  if (point < 0 && comma < 0) return "either";
  if (point >= 0 && comma >= 0) return point > comma ? "point" : "comma";
  const sign = point >= 0 ? "." : ",";
  if (cell.split(sign).length > 2) return sign === "." ? "comma" : "point";
  if (cell.length - 1 - Math.max(point, comma) === 3) return "unclear";
  return sign === "." ? "point" : "comma";
}

/** A number with the decimal sign known; groups by the other sign, a space or an apostrophe are taken. Null for anything else. */
export function numberOf(cell: string, sign: "." | ","): number | null {
  const text = latinDigits(cell)
    .trim()
    .replace(/^\u2212/, "-");
  const minus = text.startsWith("-");
  const [whole = "", part = "", ...more] = text.replace(/^[+-]/, "").split(sign);
  const digits = ungrouped(whole);
  if (more.length > 0 || digits === null || !/^\d*$/.test(part) || digits + part === "") return null;
  const value = Number(`${digits || "0"}.${part || "0"}`);
  return minus ? -value : value;
}

/** Digits without their groups: by threes, or the Indian way with twos before the last three; null when the groups are neither. */
function ungrouped(whole: string): string | null {
  const groups = whole.split(/[,. '\u00a0\u202f\u2019]/);
  const signs = new Set(whole.replace(/\d/g, ""));
  if (signs.size > 1 || !groups.every((group) => /^\d*$/.test(group))) return null;
  const [first = "", ...rest] = groups;
  const last = rest.at(-1);
  const middle = new Set(rest.slice(0, -1).map((group) => group.length));
  const even = middle.size === 0 || (middle.size === 1 && (middle.has(2) || middle.has(3)));
  const fits = last === undefined || (last.length === 3 && even && first.length >= 1 && first.length <= 3);
  return fits ? groups.join("") : null;
}
