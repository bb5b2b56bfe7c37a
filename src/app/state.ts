import { computed, signal } from "@preact/signals";
import { civilDate, minuteOfDay } from "../units/zone.js";

/** The clock of the page, moved on every half minute, and at once when the page comes back: timers rest while nobody looks. */
export const nowUtcMs = signal(Date.now());
const moveOn = () => {
  nowUtcMs.value = Date.now();
};
setInterval(moveOn, 30_000);
globalThis.document?.addEventListener?.("visibilitychange", moveOn);

/** Zone of the place that is spoken of; the phone's own until a place is known. */
export const zone = signal(Intl.DateTimeFormat().resolvedOptions().timeZone);
/** Sunrise and sunset of today at the place, wall-clock hours; null until they are worked out, and in polar day or night. */
export const sunHours = signal<{ readonly riseH: number; readonly setH: number } | null>(null);

/** Day, hour and daylight where the vehicles are. */
export const here = computed(() => ({
  zone: zone.value,
  date: civilDate(nowUtcMs.value, zone.value),
  nowH: minuteOfDay(nowUtcMs.value, zone.value) / 60,
  riseH: sunHours.value?.riseH ?? null,
  setH: sunHours.value?.setH ?? null,
}));
