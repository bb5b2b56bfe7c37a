import type { Problem } from "../../units/outcome.js";
import { isZone, minuteOfDay } from "../../units/zone.js";
import type { Band, Night } from "./night.js";

const DAY_MINUTES = 1440;

/** Minutes after midnight of a wall clock such as `22:30`; NaN when it is none. */
const minutesOf = (clock: string): number =>
  /^\d\d:\d\d$/.test(clock) ? Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5)) : Number.NaN;

const holds = (band: Band, minute: number): boolean => {
  const from = minutesOf(band.from);
  const length = (minutesOf(band.to) - from + DAY_MINUTES) % DAY_MINUTES || DAY_MINUTES;
  return (minute - from + DAY_MINUTES) % DAY_MINUTES < length;
};

/** Money per kWh by slot. Bands are local wall clock, so a night on which the clocks change keeps its cheap hours where the meter has them. */
export function slotPrices(night: Night, problems: Problem[]): Float64Array {
  const { tariff, zone } = night;
  const prices = new Float64Array(night.slotCount);
  if (tariff.kind !== "bands") return prices;
  problems.push(...bandProblems(tariff.bands, tariff.otherwisePerKwh));
  const known = isZone(zone);
  if (!known) problems.push({ code: "zoneUnknown", where: "zone", figures: { zone } });
  const dearest = tariff.bands.reduce((most, band) => Math.max(most, band.perKwh), 0);
  for (let t = 0; t < prices.length; t++) {
    const minute = minuteOfDay(night.startUtcMs + t * night.slotMinutes * 60_000, known ? zone : "UTC");
    const band = tariff.bands.find((one) => holds(one, minute));
    prices[t] = band?.perKwh ?? (Number.isFinite(tariff.otherwisePerKwh) ? tariff.otherwisePerKwh : dearest);
  }
  return prices;
}

function bandProblems(bands: readonly Band[], otherwisePerKwh: number): Problem[] {
  const owners = Array.from({ length: DAY_MINUTES }, (_, minute) => bands.filter((band) => holds(band, minute)).length);
  const clock = (minute: number): string =>
    `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
  const problems: Problem[] = [];
  const twice = owners.findIndex((count) => count > 1);
  if (twice >= 0) problems.push({ code: "bandsOverlap", where: "tariff.bands", figures: { at: clock(twice) } });
  const none = owners.indexOf(0);
  if (none >= 0 && !Number.isFinite(otherwisePerKwh))
    problems.push({ code: "bandsGap", where: "tariff.bands", figures: { at: clock(none) } });
  return problems;
}
