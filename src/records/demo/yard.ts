import { newYard } from "../new-yard.js";
import type { Yard } from "../yard.js";

/** A made-up yard at a real climate: the weather of the zone's reference town, the rest typed. */
export function demoYard(
  id: string,
  name: string,
  zone: string,
  place: { readonly latDeg: number; readonly lonDeg: number; readonly altitudeM: number },
): Yard {
  const made = newYard({ id, name, zone, typed: place });
  if (!made.ok) throw new Error(`The demo's zone ${zone} has no reference town.`);
  return made.value.yard;
}
