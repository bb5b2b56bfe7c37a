import * as z from "zod/mini";
import { isCivilDate } from "../units/zone.js";

z.config({ jitless: true }); // compiled parsers need `eval`, which the content security policy refuses

/** A number in a closed range; NaN and infinities are refused. */
export const num = (low: number, high: number) => z.number().check(z.gte(low), z.lte(high));
/** A number above 0 in a range; 0 and less are named by a code of their own. */
export const above0 = (code: string, low: number, high: number) =>
  z.number().check(z.gt(0, { error: code, abort: true }), z.gte(low), z.lte(high));
export const whole = (low: number, high: number) => z.int().check(z.gte(low), z.lte(high));
/** A part of one, 0..1. */
export const share = () => num(0, 1);
export const text = (longest = 80) => z.string().check(z.maxLength(longest));
export const name = (longest = 80) => z.string().check(z.minLength(1), z.maxLength(longest));
/** What records call each other by; `/` lets an id carry its vehicle and day, as `v7/2027-02-10/1`. */
export const id = () => z.string().check(z.regex(/^[A-Za-z0-9][A-Za-z0-9._/-]{0,99}$/));
/** A calendar day, `2027-02-10`. */
export const date = () => z.string().check(z.regex(/^\d{4}-\d\d-\d\d$/), z.refine(isCivilDate));
/** Time of day on the yard's clock, `00:00` to `24:00`. */
export const clock = () => z.string().check(z.regex(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/));
/** An instant from 2000 to 2100. */
export const utcMs = () => whole(946_684_800_000, 4_102_444_800_000);
/** Money in the smallest coin of the yard's currency; parts of it are allowed in prices. */
export const minor = (high = 1e12) => num(0, high);
export const listOf = <T extends z.ZodMiniType>(item: T, most: number, least = 0) =>
  z.array(item).check(z.minLength(least), z.maxLength(most));
export const twelve = <T extends z.ZodMiniType>(item: T) => listOf(item, 12, 12);

/** Builds a value on first use: a schema costs about 0.1 ms, which a start should not pay for kinds it does not read. */
export function lazily<T>(build: () => T): () => T {
  let built: { readonly value: T } | undefined;
  return () => {
    built ??= { value: build() };
    return built.value;
  };
}

export type DeepReadonly<T> = T extends readonly (infer Item)[]
  ? readonly DeepReadonly<Item>[]
  : T extends object
    ? { readonly [K in keyof T]: DeepReadonly<T[K]> }
    : T;
