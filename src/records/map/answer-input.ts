import type { DayInput } from "../../calc/day/input.js";
import { MINUTE_MS } from "../../units/numbers.js";
import { type DayCase, dayInputOf, type Plug } from "./day.js";
import { unpackPlace, unpackVehicle } from "./learn-pack.js";
import { learnedInputOf } from "./learned-input.js";

/** The day's calculation as every answer takes it: with what the vehicle's own days and the place taught, where something did. */
export function answerInputOf(given: DayCase): DayInput {
  const { learned, placeLearned } = given;
  if (learned && !learned.on) return dayInputOf(given);
  const vehicle = unpackVehicle(learned?.state ?? null);
  const place = unpackPlace(placeLearned?.state ?? null);
  if (!vehicle && !place) return dayInputOf(given);
  return learnedInputOf(withPlug(given), { vehicle: vehicle && { ...vehicle, on: true }, place });
}

/** Written as plugged in, and not looked at since: it has been charging until now. */
function withPlug(given: DayCase): DayCase {
  const fromUtcMs = given.learned?.pluggedUtcMs ?? null;
  const { nowUtcMs: toUtcMs, plugs = [], readings, vehicle } = given;
  if (fromUtcMs === null || toUtcMs - fromUtcMs < MINUTE_MS) return given;
  const looked = readings.some((reading) => reading.vehicleId === vehicle.id && reading.atUtcMs > fromUtcMs);
  const planned = plugs.some((plug) => plug.toUtcMs > fromUtcMs);
  if (looked || planned) return given;
  const plug: Plug = { fromUtcMs, toUtcMs, chargerW: vehicle.charger.ratedW };
  return { ...given, plugs: [...plugs, plug] };
}
