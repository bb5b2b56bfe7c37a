/** Cells of a table. */
export type Rows = readonly (readonly string[])[];

export interface CsvForm {
  readonly separator: "," | ";" | "\t";
  /** Spreadsheets of many languages write and read a comma. */
  readonly decimalSign: "." | ",";
}
export const PLAIN_FORM: CsvForm = { separator: ",", decimalSign: "." };
/** The usual form where numbers have a decimal comma. */
export const COMMA_FORM: CsvForm = { separator: ";", decimalSign: "," };

/** A text of lines ended by CRLF; cells with a separator, quote or line end stand in quotes, quotes are doubled. Source: RFC 4180, section 2. */
export const csvText = (rows: Rows, separator = ","): string =>
  rows.map((row) => `${row.map((cell) => quoted(cell, separator)).join(separator)}\r\n`).join("");

// A cell that a spreadsheet would run as a formula (=, +, -, @ and a letter after it) gets a quote mark in front, numbers stay numbers.
const isFormula = (cell: string): boolean => /^[=@\t\r]|^[+-](?![\d.,\s]*\d[\d.,\s]*$)/.test(cell);

function quoted(cell: string, separator: string): string {
  const plain = isFormula(cell) ? `'${cell}` : cell;
  return plain.includes(separator) || /["\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}

/** A whole amount of coins as a decimal number with the sign asked for; no grouping, so that any reader takes it. */
export function decimalOfMinor(minor: number, places: number, sign: "." | ","): string {
  const digits = String(Math.abs(minor)).padStart(places + 1, "0");
  const cut = digits.length - places;
  const text = places === 0 ? digits : `${digits.slice(0, cut)}${sign}${digits.slice(cut)}`;
  return minor < 0 ? `-${text}` : text;
}

/** Whole thousandths (metres, Wh, ml) as a decimal number of three places. */
export const decimalOfMilli = (milli: number, sign: "." | ","): string => decimalOfMinor(milli, 3, sign);
