import type { Sky } from "../../../records/index.js";

export type SkyWord = "bright" | "mixed" | "dark";
export const SKY_WORDS: readonly SkyWord[] = ["bright", "mixed", "dark"];
export type Cover = NonNullable<Sky["cover"]>;
export type CoverChange = (now: Cover | undefined) => Cover;

/** Middle of what a word stands for, in eighths of cloud; only to begin the row of hours. */
const OKTAS: Readonly<Record<SkyWord, number>> = { bright: 1, mixed: 4, dark: 7 };
/** The three parts of the day, as the calculation cuts it: to 10, to 14, on. */
export const partAt = (hour: number): 0 | 1 | 2 => (hour < 10 ? 0 : hour < 14 ? 1 : 2);

/** What three parts a cover amounts to, as a start for changing one of them. */
export function partsOf(cover: Cover | undefined): readonly SkyWord[] {
  if (cover?.kind === "parts") return cover.values;
  const all = cover?.kind === "three" ? cover.value : "mixed";
  return [all, all, all];
}

export interface Hours {
  readonly oktas: readonly number[];
  readonly thin: readonly boolean[];
}

/** What hours a cover amounts to, as a start for changing one of them. */
export function hoursOf(cover: Cover | undefined): Hours {
  if (cover?.kind === "hours") return cover;
  const parts = partsOf(cover);
  return {
    oktas: Array.from({ length: 24 }, (_, hour) => OKTAS[parts[partAt(hour)] ?? "mixed"]),
    thin: Array.from({ length: 24 }, () => false),
  };
}

/** Cover with one hour painted; tapping an hour that bears the paint already takes one eighth more, after 8 none. */
export function painted(cover: Cover | undefined, hour: number, paint: { okta: number; thin: boolean }): Cover {
  const { oktas, thin } = hoursOf(cover);
  const same = cover?.kind === "hours" && oktas[hour] === paint.okta && thin[hour] === paint.thin;
  const okta = same ? (paint.okta + 1) % 9 : paint.okta;
  return {
    kind: "hours",
    oktas: oktas.map((old, h) => (h === hour ? okta : old)),
    thin: thin.map((old, h) => (h === hour ? paint.thin && okta > 0 : old)),
  };
}

/** Whole hours with any daylight, from sunrise and sunset in hours; 6 to 18 where the sun does neither. */
export function daylightHours(riseH: number | null, setH: number | null): readonly number[] {
  const first = riseH === null ? 6 : Math.floor(riseH);
  const last = setH === null ? 18 : Math.ceil(setH) - 1;
  return Array.from({ length: Math.max(1, last - first + 1) }, (_, i) => first + i).filter((hour) => hour < 24);
}
