import { bad, good, type Outcome } from "../units/outcome.js";
import { guessesIn } from "./guesses.js";
import { type Town, type TownFound, townOfZone } from "./places.js";
import { GRID_CO2 } from "./towns.js";
import type { Yard } from "./yard.js";

/** What a person typed about a new yard; the town may be chosen, else it follows from the zone. */
export interface NewYard {
  readonly id: string;
  readonly name: string;
  /** IANA name, as `Asia/Dhaka`. */
  readonly zone: string;
  readonly town?: Town;
  readonly typed?: Partial<
    Pick<Yard, "latDeg" | "lonDeg" | "altitudeM" | "currency" | "siteLimitKw" | "groundClass" | "parkShade">
  >;
}

export interface MadeYard {
  readonly yard: Yard;
  /** `offset`: the zone has no town of its own and one of the same clock stands in; say so and ask for the place. */
  readonly placedBy: TownFound["by"];
}

/** A whole yard from a few taps; `guesses` names every figure nobody typed. Weather figures: guesses from memory (towns.ts). */
export function newYard(of: NewYard): Outcome<MadeYard> {
  const found = townOfZone(of.zone);
  if (!found) return bad({ code: "zoneUnknown", where: "zone", figures: { found: of.zone } });
  const town = of.town ?? found.town;
  const bare = { ...yardAt(town), ...of.typed, id: of.id, name: of.name, zone: of.zone };
  const yard: Yard = { ...bare, guesses: guessesIn(bare, Object.keys(of.typed ?? {})) };
  return good({ yard, placedBy: of.town ? "zone" : found.by });
}

function yardAt(town: Town): Omit<Yard, "id" | "name" | "zone" | "guesses"> {
  const { latDeg, lonDeg, altitudeM, groundClass, hazeByMonth, usualSkyByMonth, airMinCByMonth, airMaxCByMonth } = town;
  const grid = GRID_CO2[town.country];
  return {
    v: 1,
    ...{ latDeg, lonDeg, altitudeM, groundClass, hazeByMonth, usualSkyByMonth, airMinCByMonth, airMaxCByMonth },
    parkShade: "part",
    currency: town.currency,
    siteLimitKw: null,
    marginKw: 0,
    baseLoadKwByHour: Array.from({ length: 24 }, () => 0),
    tariff: {
      kind: "none",
      bands: [],
      otherwisePerKwhMinor: 0,
      feeMinor: 0,
      demandPerKwMinor: 0,
      billedPeakKw: 0,
    },
    // somebody is about from the first departures to late evening (common practice, no source)
    staff: { awake: [{ from: "05:00", to: "23:00" }], wake: [], swapWorthMinor: 0, wakeWorthMinor: 0 },
    cuts: [],
    grid: grid ? { co2KgPerKwh: grid[0], country: town.country, year: grid[1], source: grid[2] } : null,
  };
}
