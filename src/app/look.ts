import { effect } from "@preact/signals";
import { sunTimes } from "../calc/sun/times.js";
import { siteOf } from "../records/map/place.js";
import { minuteOfDay, utcMsAt } from "../units/zone.js";
import { current } from "./answers.js";
import { yardOf, yards } from "./fleet.js";
import { settings, showLook } from "./settings.js";
import { here, sunHours, zone } from "./state.js";

const HALF_HOUR = 0.5;

/** Follows the place that is spoken of: its clock, its daylight, and the look that goes with it. */
export function followSun(): void {
  effect(() => {
    const vehicle = current.value;
    const yard = (vehicle && yardOf(vehicle)) ?? yards.value[0];
    if (yard) zone.value = yard.zone;
  });
  effect(() => {
    const vehicle = current.value;
    const yard = (vehicle && yardOf(vehicle)) ?? yards.value[0];
    const { date, zone: clock } = here.value;
    if (!yard) return;
    const sun = sunTimes(utcMsAt(date, 720, clock), siteOf(yard));
    const hours = sun.riseUtcMs === null || sun.setUtcMs === null ? null : [sun.riseUtcMs, sun.setUtcMs];
    const [riseH, setH] = (hours ?? []).map((utcMs) => minuteOfDay(utcMs, clock) / 60);
    const old = sunHours.peek();
    if (riseH === undefined || setH === undefined) sunHours.value = null;
    else if (old?.riseH !== riseH || old.setH !== setH) sunHours.value = { riseH, setH };
  });
  effect(() => {
    const { look } = settings.value;
    const { nowH, riseH, setH } = here.value;
    const dark = riseH !== null && setH !== null && (nowH < riseH - HALF_HOUR || nowH > setH + HALF_HOUR);
    showLook(look === "night" || (look === "sun" && dark));
  });
}
