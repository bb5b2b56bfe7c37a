import { bad, type Outcome } from "../units/outcome.js";
import type { AnyRecord } from "./kinds.js";
import { readRecord } from "./read.js";

/** Fields that are names, states or bookkeeping: nobody guesses them. */
const NOT_GUESSED = new Set([
  "id",
  "v",
  "yardId",
  "plate",
  "name",
  "class",
  "status",
  "zone",
  "learned",
  "guesses",
  "roundId",
]);

/**
 * Paths of every figure of a record that nobody typed. `typed` holds paths; one of a whole part (`battery`) covers what is in it.
 * A list of plain values is one path, as `drive.gears`.
 */
export const guessesIn = (record: object, typed: readonly string[]): string[] =>
  leaves(record, "").filter((path) => !typed.some((known) => path === known || path.startsWith(`${known}.`)));

function leaves(value: unknown, at: string): string[] {
  if (typeof value !== "object" || value === null) return [at];
  if (Array.isArray(value) && !value.some((item) => typeof item === "object")) return [at];
  return Object.entries(value).flatMap(([key, part]) =>
    NOT_GUESSED.has(key) ? [] : leaves(part, at === "" ? key : `${at}.${key}`),
  );
}

type Guessing = "vehicle" | "yard";

/**
 * A record with one figure typed in: set at its path and no guess any more; `undefined` leaves an optional field out. Refused, with the
 * place, when the figure is out of range or the path does not exist.
 */
export function typeInto<K extends Guessing>(
  kind: K,
  record: AnyRecord<K>,
  path: string,
  value: unknown,
): Outcome<AnyRecord<K>> {
  const copy = JSON.parse(JSON.stringify(record)) as Record<string, unknown>;
  const steps = path.split(".");
  let owner: unknown = copy;
  for (const step of steps.slice(0, -1)) owner = isObject(owner) && Object.hasOwn(owner, step) ? owner[step] : null;
  if (!isObject(owner)) return bad({ code: "unknownField", where: path });
  if (value === undefined) delete owner[steps.at(-1) ?? ""];
  else
    Object.defineProperty(owner, steps.at(-1) ?? "", { value, enumerable: true, configurable: true, writable: true });
  copy.guesses = record.guesses.flatMap((guess) => stillGuessed(record, guess, path));
  return readRecord(kind, copy);
}

/** What is left of a guess once a path was typed: nothing of it, all of it, or what stands beside the path where it covers more. */
function stillGuessed(record: object, guess: string, path: string): string[] {
  if (guess === path || guess.startsWith(`${path}.`)) return [];
  if (!path.startsWith(`${guess}.`)) return [guess];
  const part = guess.split(".").reduce<unknown>((at, step) => (isObject(at) ? at[step] : undefined), record);
  if (!isObject(part)) return [];
  return Object.keys(part).flatMap((key) => stillGuessed(record, `${guess}.${key}`, path));
}

const isObject = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null;
