import { AIM, Board, FIELDS, FULL, MISSING } from "./board.js";
import { Inserter } from "./insert.js";
import { type Menu, NO_CLASS } from "./menu.js";
import type { StayModel } from "./model.js";
import { PartialRuns } from "./partial.js";

/** What is lost even if every stay had the yard to itself. */
export interface Floors {
  readonly short: number;
  readonly missingKwh: number;
  readonly fullMissed: number;
  /** By stay: hundredths of a kWh missing when it has the yard to itself; 0 when it can be served. */
  readonly leastMissing: Float64Array;
}

/** Stays that cannot be served alone, what they then miss at least, and full charges that cannot be reached alone. */
export function floorsOf(menu: Menu): Floors {
  const board = new Board(menu);
  const inserter = new Inserter(board);
  const partials = new PartialRuns(board);
  const leastMissing = new Float64Array(menu.model.stays.length);
  let short = 0;
  let missing = 0;
  let fullMissed = 0;
  for (const [v, stay] of menu.model.stays.entries()) {
    const fits = sessionsAlone(menu, inserter, v, stay);
    if (fits.length === 0) {
      short++;
      partials.insert(v);
      leastMissing[v] = board.cur[v * FIELDS + AIM + MISSING] as number;
      missing += leastMissing[v] as number;
      fullMissed += board.cur[v * FIELDS + AIM + FULL] as number;
      if (board.isServed(v)) board.lift(v);
    } else if (fits.every((i) => menu.fullMissed.values[i] === 1)) fullMissed++;
  }
  return { short, missingKwh: missing / 100, fullMissed, leastMissing };
}

function sessionsAlone(menu: Menu, inserter: Inserter, v: number, stay: StayModel): number[] {
  inserter.begin();
  const fits: number[] = [];
  for (let i = menu.from[v] as number; i < (menu.from[v + 1] as number); i++)
    if (menu.klass.values[i] === NO_CLASS || inserter.fits(stay, i)) fits.push(i);
  return fits;
}
