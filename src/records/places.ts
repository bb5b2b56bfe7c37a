import { isZone, offsetMinutes } from "../units/zone.js";
import { OLD_ZONES, TOWNS } from "./towns.js";
import type { Yard } from "./yard.js";

/** A reference town with its usual weather: guesses from memory (see towns.ts). */
export interface Town
  extends Pick<
    Yard,
    | "name"
    | "currency"
    | "zone"
    | "latDeg"
    | "lonDeg"
    | "altitudeM"
    | "groundClass"
    | "hazeByMonth"
    | "airMinCByMonth"
    | "airMaxCByMonth"
  > {
  readonly country: string;
  readonly usualSkyByMonth: NonNullable<Yard["usualSkyByMonth"]>;
}

const HAZE_OF = { h: "cleanHighland", c: "country", t: "town", d: "dustSmoke" } as const;

function townOf(row: string): Town {
  const [name = "", country = "", currency = "", zone = "", at = "", ground, ...months] = row.split("|");
  const [latDeg = 0, lonDeg = 0, altitudeM = 0] = numbers(at);
  const [minC = "", maxC = "", bright = "", mixed = "", haze = ""] = months;
  const groundClass = ground as Town["groundClass"]; // the table's own word; a test reads every row through the yard's schema
  return {
    ...{ name, country, currency, zone, latDeg, lonDeg, altitudeM, groundClass },
    hazeByMonth: [...haze].map((letter) => HAZE_OF[letter as keyof typeof HAZE_OF]),
    usualSkyByMonth: [...bright].map((tenths, month) => sky(Number(tenths), Number(mixed[month]))),
    airMinCByMonth: numbers(minC),
    airMaxCByMonth: numbers(maxC),
  };
}
const numbers = (text: string): number[] => text.split(" ").map(Number);
const sky = (bright: number, mixed: number) => ({
  bright: bright / 10,
  mixed: mixed / 10,
  dark: (10 - bright - mixed) / 10,
});

/** All reference towns; the first of a zone is the one taken for it. */
export const towns = (): readonly Town[] => TOWNS.map(townOf);

/** `zone`: a town of that very zone. `offset`: no town of the zone is known; one with the same clock on the same continent, or else the nearest clock. */
export interface TownFound {
  readonly town: Town;
  readonly by: "zone" | "offset";
}

/** The town that stands for an IANA zone; null for a zone that does not exist. */
export function townOfZone(zone: string): TownFound | null {
  if (!isZone(zone)) return null;
  const all = towns();
  const known = OLD_ZONES[zone] ?? zone;
  const exact = all.find((town) => town.zone === known);
  if (exact) return { town: exact, by: "zone" };
  const far = (town: Town): number =>
    Math.abs(winterOffset(town.zone) - winterOffset(zone)) + (continent(town.zone) === continent(zone) ? 0 : 45);
  const [first, ...rest] = all;
  if (!first) return null;
  return { town: rest.reduce((best, town) => (far(town) < far(best) ? town : best), first), by: "offset" };
}

const continent = (zone: string): string => zone.split("/")[0] ?? "";
/** Minutes ahead of UTC without summer time. */
const winterOffset = (zone: string): number =>
  Math.min(offsetMinutes(zone, Date.UTC(2025, 0, 1)), offsetMinutes(zone, Date.UTC(2025, 6, 1)));

/** The nearest reference town to a place, by great circle. */
export function nearestTown(at: { readonly latDeg: number; readonly lonDeg: number }): Town | null {
  const [first, ...rest] = towns();
  if (!first) return null;
  return rest.reduce((best, town) => (cosAngle(at, town) > cosAngle(at, best) ? town : best), first);
}

type Point = { readonly latDeg: number; readonly lonDeg: number };
const RAD = Math.PI / 180;
const cosAngle = (a: Point, b: Point): number =>
  Math.sin(a.latDeg * RAD) * Math.sin(b.latDeg * RAD) +
  Math.cos(a.latDeg * RAD) * Math.cos(b.latDeg * RAD) * Math.cos((a.lonDeg - b.lonDeg) * RAD);
