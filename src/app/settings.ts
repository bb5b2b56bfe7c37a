import { computed, effect, signal } from "@preact/signals";
import { type Digits, LANGUAGES, type Language, usualDigits } from "./words/format.js";

export type Look = "day" | "night" | "sun";
export type Role = "driver" | "yard" | "fitter" | "owner";
export type TextSize = 1 | 2 | 3 | 4;

/** How this phone shows things. Kept apart from the records: it never leaves the phone, and losing it loses no work. */
export interface Settings {
  readonly language: Language;
  /** Null: as the language is usually read. */
  readonly digits: Digits | null;
  readonly look: Look;
  readonly textSize: TextSize;
  /** Decides only which place opens first. */
  readonly role: Role;
  readonly voice: boolean;
  /** In other hands for a while: what is the owner's alone stays away until it is taken back. */
  readonly lent: boolean;
  /** Vehicle that Today speaks of; null: the first one. */
  readonly vehicleId: string | null;
  /** The yard that is not real is open in place of the person's own; what to go back to. */
  readonly demo: { readonly vehicleId: string | null; readonly role: Role } | null;
  /** Cautions shown in full, with the day (ms) of the last time. */
  readonly cautioned: Readonly<Record<string, number>>;
}

const KEY = "noonplug";
const LOOKS: readonly Look[] = ["day", "night", "sun"];
const ROLES: readonly Role[] = ["driver", "yard", "fitter", "owner"];
const SIZES: readonly TextSize[] = [1, 2, 3, 4];

/** Language of the phone, when it is one of ours. */
export function phoneLanguage(asked: readonly string[]): Language {
  const codes = asked.map((tag) => tag.split("-")[0]);
  return codes.flatMap((code) => LANGUAGES.filter((language) => language === code))[0] ?? "en";
}

const oneOf = <T>(list: readonly T[], value: unknown, otherwise: T): T =>
  list.find((one) => one === value) ?? otherwise;

/** Settings out of what was kept; whatever does not fit is left at its default. */
export function readSettings(text: string | null, phone: readonly string[] = navigator.languages): Settings {
  let raw: Record<string, unknown> = {};
  try {
    const parsed: unknown = JSON.parse(text ?? "{}");
    if (typeof parsed === "object" && parsed !== null) raw = parsed as Record<string, unknown>;
  } catch {
    // a broken entry means default settings, nothing more
  }
  const cautioned = Object.entries((raw.cautioned as object | undefined) ?? {});
  return {
    language: oneOf(LANGUAGES, raw.language, phoneLanguage(phone)),
    digits: raw.digits === "latin" || raw.digits === "own" ? raw.digits : null,
    look: oneOf(LOOKS, raw.look, "sun"),
    textSize: oneOf(SIZES, raw.textSize, 1),
    role: oneOf(ROLES, raw.role, "driver"),
    voice: raw.voice !== false,
    lent: raw.lent === true,
    vehicleId: typeof raw.vehicleId === "string" ? raw.vehicleId : null,
    demo: readDemo(raw.demo),
    cautioned: Object.fromEntries(cautioned.filter(([, at]) => typeof at === "number")),
  };
}

function readDemo(raw: unknown): Settings["demo"] {
  if (typeof raw !== "object" || raw === null) return null;
  const { vehicleId, role } = raw as Readonly<Record<string, unknown>>;
  return { vehicleId: typeof vehicleId === "string" ? vehicleId : null, role: oneOf(ROLES, role, "driver") };
}

function kept(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null; // a locked-down browser: the settings last as long as the page
  }
}

export const settings = signal(readSettings(kept()));
export const handOver = computed(() => settings.value.lent);
export const digitsOf = (of: Settings): Digits => of.digits ?? usualDigits(of.language);

/** Settings as they were last kept, by this window or another. */
export const keptSettings = (): Settings => readSettings(kept() ?? JSON.stringify(settings.value));

/** Changes settings and keeps them, beside what other windows changed. */
export function set(change: Partial<Settings>): void {
  settings.value = { ...keptSettings(), ...change };
  try {
    localStorage.setItem(KEY, JSON.stringify(settings.value));
  } catch {
    // no room or no right: the change still holds for this page
  }
}

/** Puts the look on the page and beside it for the next start, where look.js reads it before the first paint. */
export function showLook(night: boolean): void {
  const root = document.documentElement;
  root.dataset.look = night ? "night" : "day";
  document.querySelector('meta[name="theme-color"]')?.setAttribute("content", night ? "#12191d" : "#fffdf6");
  try {
    localStorage.setItem(`${KEY}-look`, root.dataset.look);
  } catch {
    // the next start begins in the day look
  }
}

effect(() => {
  document.documentElement.dataset.size = String(settings.value.textSize);
});
