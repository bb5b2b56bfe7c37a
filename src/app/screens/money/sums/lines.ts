import { type DayLine, dayLines, daysLater, earlierOf, laterOf, monthEnds } from "../../../../calc/money/index.js";
import type { Entry } from "../../../../records/index.js";
import { groundOf } from "../../../../records/map/money-book.js";
import type { Store } from "../../../../store/index.js";
import { FIRST_DAY, groundsOf, KINDS, LAST_DAY } from "./build.js";
import { vehicleRows } from "./rows.js";

/** The day lines of a month of all vehicles, for a table: read and worked out when somebody asks for it, the sums being fresh. */
export async function fleetLines(
  store: Store,
  today: string,
  month: string,
): Promise<readonly { readonly plate: string; readonly lines: readonly DayLine[] }[]> {
  const { from, to } = monthEnds(month);
  const [base, rows, entries] = await Promise.all([
    store.listMany(KINDS),
    vehicleRows(store),
    store.between("entry", daysLater(from, -1), to), // the day before tells where an odometer stood
  ]);
  if (!base.ok || !rows.ok || !entries.ok) return [];
  const byVehicle = new Map<string, Entry[]>();
  for (const entry of entries.value.records) {
    const own = byVehicle.get(entry.vehicleId);
    if (own) own.push(entry);
    else byVehicle.set(entry.vehicleId, [entry]);
  }
  const grounds = groundsOf(store, base.value, today);
  const made: { plate: string; lines: readonly DayLine[] }[] = [];
  for (const vehicle of base.value.vehicle.records) {
    const yard = grounds.yard(vehicle);
    const row = rows.value.get(vehicle.id);
    if (!yard || !row || row.first === null || row.through === null) continue;
    const ground = grounds.of(vehicle, yard);
    const open = ground.standstills.some((each) => each.to === null);
    const whole = open ? await store.history("entry", vehicle.id, FIRST_DAY, LAST_DAY) : null;
    const own = whole?.ok ? whole.value.records : (byVehicle.get(vehicle.id) ?? []);
    const { days, laid } = groundOf({ ...ground, entries: own, skies: await grounds.skies(yard) });
    const [start, last] = [laterOf(row.first, from), earlierOf(row.through, to)];
    if (start <= last) made.push({ plate: vehicle.plate, lines: dayLines(days.logs, laid.terms, start, last) });
  }
  return made;
}
