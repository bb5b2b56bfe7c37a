import { effect } from "@preact/signals";
import type { Yard } from "../records/index.js";
import { siteOf } from "../records/map/place.js";
import { type CivilDate, minuteOfDay, utcMsAt } from "../units/zone.js";
import { askDay } from "../work/ask-day.js";
import { current } from "./answers.js";
import { yardOf, yards } from "./fleet.js";
import { settings, showLook } from "./settings.js";
import { here, sunHours, zone } from "./state.js";

const HALF_HOUR = 0.5;
const NOON_MINUTE = 720;

function placeShown(): Yard | undefined {
  const vehicle = current.value;
  return (vehicle && yardOf(vehicle)) ?? yards.value[0];
}

let asked = "";
/** Asks the worker once a day and place; the ribbon has no daylight until it answers. */
async function askSun(yard: Yard, date: CivilDate, clock: string): Promise<void> {
  const site = siteOf(yard);
  const key = `${date} ${site.latDeg} ${site.lonDeg} ${clock}`;
  if (asked === key) return;
  asked = key;
  const sun = await askDay("sunOf", { ...site, utcMs: utcMsAt(date, NOON_MINUTE, clock) }).catch(() => null);
  if (asked !== key) return;
  if (!sun) {
    asked = ""; // with the next step of the clock, then
    return;
  }
  const hourOf = (utcMs: number) => minuteOfDay(utcMs, clock) / 60;
  const { riseUtcMs, setUtcMs } = sun;
  sunHours.value =
    riseUtcMs === null || setUtcMs === null ? null : { riseH: hourOf(riseUtcMs), setH: hourOf(setUtcMs) };
}

/** Follows the place that is spoken of: its clock, its daylight, and the look that goes with it. */
export function followSun(): void {
  effect(() => {
    const yard = placeShown();
    if (yard) zone.value = yard.zone;
  });
  effect(() => {
    const yard = placeShown();
    const { date, zone: clock } = here.value;
    if (yard) void askSun(yard, date, clock);
  });
  effect(() => {
    const { look } = settings.value;
    const { nowH, riseH, setH } = here.value;
    const dark = riseH !== null && setH !== null && (nowH < riseH - HALF_HOUR || nowH > setH + HALF_HOUR);
    showLook(look === "night" || (look === "sun" && dark));
  });
}
