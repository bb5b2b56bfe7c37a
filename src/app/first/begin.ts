import type { Yard } from "../../records/index.js";
import { newYard } from "../../records/new-yard.js";
import { keep, newId } from "../fleet.js";
import { go, goInstead } from "../router.js";
import { guessedFull } from "../screens/today-of.js";
import { set } from "../settings.js";
import { makeRound, makeVehicle, type Names, type Taps } from "./make.js";

/** A yard at the reference town of the phone's time zone. */
function yardHere(id: string, name: string): Yard {
  const made = newYard({ id, name, zone: Intl.DateTimeFormat().resolvedOptions().timeZone });
  const known = made.ok ? made : newYard({ id, name, zone: "UTC" }); // a zone the phone knows and the database does not
  if (!known.ok) throw new Error("No town stands for any zone");
  return known.value.yard;
}

/** Five taps make a yard of one vehicle with its usual day. The set counts as full until somebody reads the gauge, and says it is a guess. */
export async function startVehicle(taps: Taps, names: Names, yardName: string): Promise<void> {
  const ids = { yard: newId(), vehicle: newId(), round: newId() };
  const kept = await keep([
    { kind: "yard", put: yardHere(ids.yard, yardName) },
    { kind: "round", put: makeRound(ids, taps, names) },
    { kind: "vehicle", put: makeVehicle(ids, taps, names) },
    { kind: "reading", put: guessedFull(ids.vehicle, Date.now()) },
  ]);
  if (!kept) return;
  set({ role: "driver", vehicleId: ids.vehicle });
  goInstead("today");
}

/** One more vehicle in a yard that is already there. */
export async function addVehicle(yardId: string, taps: Taps, names: Names): Promise<string | null> {
  const ids = { yard: yardId, vehicle: newId(), round: newId() };
  const kept = await keep([
    { kind: "round", put: makeRound(ids, taps, names) },
    { kind: "vehicle", put: makeVehicle(ids, taps, names) },
  ]);
  return kept ? ids.vehicle : null;
}

/** A yard of which only the place is known. */
export async function startYard(name: string): Promise<void> {
  if (!(await keep([{ kind: "yard", put: yardHere(newId(), name) }]))) return;
  set({ role: "yard" });
  goInstead("vehicles");
  go("tonight");
}
