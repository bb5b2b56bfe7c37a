/** Numbers, hours and dates in the reader's language. One language at a time is set for the whole page (words/load.ts). */
export const LANGUAGES = ["en", "hi", "bn", "ur", "sw", "es"] as const;
export type Language = (typeof LANGUAGES)[number];
/** Own: the digits of the script. Latin: 0-9, as on meters. */
export type Digits = "latin" | "own";

/** Each language by its own name, with the tag whose dates are written day before month. */
export const LANGUAGE_NAMES: Record<Language, string> = {
  en: "English",
  hi: "हिन्दी",
  bn: "বাংলা",
  ur: "اردو",
  sw: "Kiswahili",
  es: "Español",
};
const TAGS: Record<Language, string> = { en: "en-GB", hi: "hi-IN", bn: "bn-BD", ur: "ur-PK", sw: "sw-KE", es: "es-ES" };
const OWN_DIGITS: Partial<Record<Language, string>> = { hi: "deva", bn: "beng", ur: "arabext" };

export const hasOwnDigits = (language: Language): boolean => language in OWN_DIGITS;
/** Digits a language is usually read in: Bengali by its own, the others by 0-9 (Unicode locale data). */
export const usualDigits = (language: Language): Digits => (language === "bn" ? "own" : "latin");
export const tagOf = (language: Language): string => TAGS[language];

let tag = "en-GB-u-nu-latn";
let zeroCode = 48;
let plurals = new Intl.PluralRules("en");
let numbers = new Map<number, Intl.NumberFormat>();
let comma = ", ";
/** Keeps a sign at the left of its figure where words run from right to left. */
let beforeSign = "";

export function setLanguage(language: Language, digits: Digits): void {
  const own = digits === "own" ? OWN_DIGITS[language] : undefined;
  tag = `${TAGS[language]}-u-nu-${own ?? "latn"}`;
  zeroCode = own === "deva" ? 0x966 : own === "beng" ? 0x9e6 : own === "arabext" ? 0x6f0 : 48;
  comma = language === "ur" ? "، " : ", ";
  beforeSign = language === "ur" ? "\u200e" : "";
  plurals = new Intl.PluralRules(language);
  numbers = new Map();
}

/** Language tag with the digits that are set, for number formats of other files. */
export const numberTag = (): string => tag;

/** 0-9 turned into the digits that are set. */
export const inDigits = (text: string): string =>
  zeroCode === 48 ? text : text.replace(/\d/g, (digit) => String.fromCharCode(zeroCode + Number(digit)));

/** What rounds to nothing bears no sign. */
const orZero = (value: number, decimals: number): number => (Math.abs(value) < 0.5 * 10 ** -decimals ? 0 : value);

/** A number with so many decimals and a true minus sign. */
export function figures(value: number, decimals = 0): string {
  const known = numbers.get(decimals);
  const format =
    known ?? new Intl.NumberFormat(tag, { minimumFractionDigits: decimals, maximumFractionDigits: decimals });
  if (!known) numbers.set(decimals, format);
  return format
    .format(orZero(value, decimals))
    .replace(/[-\u200e\u200f\u061c]/g, (sign) => (sign === "-" ? `${beforeSign}−` : ""));
}

/** Always with its sign: +4, −4. */
export const signed = (value: number, decimals = 0): string =>
  `${beforeSign}${orZero(value, decimals) < 0 ? "−" : "+"}${figures(Math.abs(value), decimals)}`;

/** Parts of a sentence, with the comma of the language between them; empty ones are left out. */
export const joined = (...parts: readonly (string | null | undefined | false)[]): string =>
  parts.filter(Boolean).join(comma);

const two = (value: number): string => String(value).padStart(2, "0");

/** Hours of a day as 17:50; 24 and more fall into the next day. */
export function clock(hour: number): string {
  const minutes = Math.round(hour * 60);
  const inDay = ((minutes % 1440) + 1440) % 1440;
  return inDigits(`${two(Math.floor(inDay / 60))}:${two(inDay % 60)}`);
}

const dates = (options: Intl.DateTimeFormatOptions) => (date: string) =>
  new Intl.DateTimeFormat(tag, { ...options, timeZone: "UTC" }).format(new Date(`${date}T12:00:00Z`)).replace(",", "");

/** `2027-02-10` as "Wed 10 Feb". */
export const dayShort = dates({ weekday: "short", day: "numeric", month: "short" });
export const weekday = dates({ weekday: "long" });
export const dayAndMonth = dates({ day: "numeric", month: "short" });
export const monthName = (index: number): string => dates({ month: "short" })(`2027-${two(index + 1)}-15`);

export type PluralForms = Partial<Record<Intl.LDMLPluralRule, string>> & { other: string };
/** The form a number needs in the language that is set. */
export const plural = (count: number, forms: PluralForms): string =>
  forms[plurals.select(Math.abs(count))] ?? forms.other;

// Figures inside a sentence are wrapped in an unseen mark, so that a screen can set them in the face for figures.
const MARK = "\u2063";
export const fig = (text: string): string => `${MARK}${text}${MARK}`;
/** Keeps a sign before its number where words run from right to left. */
export const leftToRight = (text: string): string => `\u2066${text}\u2069`;
/** A whole number, marked as a figure. */
export const n = (value: number): string => fig(figures(value));
/** A number with a sign, marked as a figure. */
export const sn = (value: number): string => fig(signed(value));
/** Whole where it is whole, else with one decimal; marked as a figure. */
export const nAsIs = (value: number): string => fig(figures(value, Number.isInteger(value) ? 0 : 1));
/** A number with one decimal, marked as a figure. */
export const n1 = (value: number): string => fig(figures(value, 1));
export const at = (hour: number): string => clock(hour);
/** The sentence without marks: for speech, labels and exports. */
export const plain = (text: string): string => text.replaceAll(MARK, "");
/** The sentence cut at its marks; every second piece is a figure. */
export const pieces = (text: string): string[] => text.split(MARK);
