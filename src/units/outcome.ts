/** What went wrong, where, and with which figures: screens turn the code into words, so every message can be translated. */
export interface Problem {
  readonly code: string;
  /** Path of the field or part, as `vehicles.3.battery.ratedAh`; empty when the whole is meant. */
  readonly where: string;
  readonly figures?: Readonly<Record<string, number | string>>;
}
export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export const good = <T>(value: T): Outcome<T> => ({ ok: true, value });
export const bad = (...problems: readonly Problem[]): Outcome<never> => ({ ok: false, problems });
