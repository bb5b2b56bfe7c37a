import type { Context, Fields } from "../table.js";

/** Maps the fields of a case onto the calculation and its answer back onto the wanted fields; no physics in here. */
export type Serve = (input: never, context: Context) => Fields;
/** What each file beside this one exports as `served`: the checks it answers, by name. */
export type Served = Readonly<Record<string, Serve>>;

const files = import.meta.glob<{ readonly served: Served }>(["./*.ts", "!./index.ts"], { eager: true });

/** All checks served, of every file in this folder; a check served twice is a bug. */
export const served: ReadonlyMap<string, Serve> = Object.values(files)
  .flatMap((file) => Object.entries(file.served))
  .reduce((all, [check, serve]) => {
    if (all.has(check)) throw new Error(`Two files serve the check ${check}.`);
    return all.set(check, serve);
  }, new Map<string, Serve>());
