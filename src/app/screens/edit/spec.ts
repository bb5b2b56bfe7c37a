import type { Drawing } from "../../parts/icons.js";
import type { EditWords } from "../../words/edit/en.js";

export type UnitName = keyof EditWords["units"];

interface Named<Name extends string> {
  /** Path in the record, as `battery.ratedAh`. */
  readonly path: string;
  /** Under which its words stand; a roof face has its own path and shares its words with the other faces. */
  readonly name: Name;
}
export interface NumberSpec<Name extends string = string> extends Named<Name> {
  readonly kind: "number";
  readonly unit: UnitName;
  /** In place of the unit's own word: a currency. */
  readonly unitText?: string;
  /** Shown = kept x times. */
  readonly times?: number;
  readonly decimals?: number;
  /** Values that people often mean, as shown; five at most. */
  readonly usual?: readonly number[];
  readonly signed?: boolean;
  /** How "not known" is kept: as null, or by leaving the field out. */
  readonly unset?: "null" | "leftOut";
}
export interface ChoiceSpec<Name extends string = string> extends Named<Name> {
  readonly kind: "choice";
  readonly options: readonly string[];
  readonly drawings?: Readonly<Record<string, Drawing>>;
}
export interface TextSpec<Name extends string = string> extends Named<Name> {
  readonly kind: "text";
  readonly longest: number;
  readonly mayBeEmpty?: boolean;
  readonly capitals?: boolean;
  /** Texts in use elsewhere, as keys. */
  readonly offers?: readonly string[];
}
export interface DateSpec<Name extends string = string> extends Named<Name> {
  readonly kind: "date";
}
/** Minutes after midnight. */
export interface ClockSpec<Name extends string = string> extends Named<Name> {
  readonly kind: "clock";
}
export type Spec<Name extends string = string> =
  | NumberSpec<Name>
  | ChoiceSpec<Name>
  | TextSpec<Name>
  | DateSpec<Name>
  | ClockSpec<Name>;

/** Value at a path of a record; undefined where there is none. */
export const valueAt = (record: unknown, path: string): unknown =>
  path
    .split(".")
    .reduce<unknown>(
      (part, step) =>
        typeof part === "object" && part !== null ? (part as Readonly<Record<string, unknown>>)[step] : undefined,
      record,
    );

/** Nobody typed it, or not all of it. */
export const isGuess = (record: { readonly guesses: readonly string[] }, path: string): boolean =>
  record.guesses.some((guess) => guess === path || guess.startsWith(`${path}.`) || path.startsWith(`${guess}.`));

/** A kept number as it is shown, free of the dust that multiplying leaves. */
export const shownOf = (spec: Pick<NumberSpec, "times">, kept: number): number =>
  Number((kept * (spec.times ?? 1)).toPrecision(10));
export const keptOf = (spec: Pick<NumberSpec, "times">, shown: number): number =>
  Number((shown / (spec.times ?? 1)).toPrecision(10));
