import { bad, good, type Outcome } from "../../units/outcome.js";
import type { Battery, Level, Reading } from "./types.js";
import { levelFromVolts, outOfVolts } from "./volts.js";

/** Gauges: 3 % on lithium with a counter, 5 % on lead-acid (common practice). */
const gaugeSd = (battery: Battery): number => (battery.chemistry === "lfp" ? 0.03 : 0.05);
const NORMAL_90 = 1.2816;
/** An even band holds its middle 80 % within 0.4 of its width. */
const EVEN_90 = 0.4;

const even = (low: number, high: number, gauge: number): Level => {
  const middle = (low + high) / 2;
  const width = high - low;
  const half = Math.hypot(EVEN_90 * width, NORMAL_90 * gauge);
  return {
    share: middle,
    sdShare: Math.sqrt((width * width) / 12 + gauge * gauge),
    low: Math.max(0, middle - half),
    high: Math.min(1, middle + half),
    usable: true,
  };
};

const outside = (low: number, high: number): Outcome<Level> =>
  bad({ code: "reading-out-of-range", where: "value", figures: { low, high } });

function ofBars(reading: Reading, battery: Battery): Outcome<Level> {
  const bars = reading.bars ?? 5;
  if (!(reading.value >= 0 && reading.value <= bars)) return outside(0, bars);
  if (reading.value === 0) return good(even(0, 1 / bars / 2, gaugeSd(battery)));
  return good(even(Math.max(0, reading.value - 1) / bars, reading.value / bars, gaugeSd(battery)));
}

function ofPercent(reading: Reading, battery: Battery): Outcome<Level> {
  if (!(reading.value >= 0 && reading.value <= 100)) return outside(0, 100);
  return good(even(reading.value / 100, reading.value / 100, gaugeSd(battery)));
}

/**
 * Level from what a person read: percent, bars, rested volts (set or block) or a finished charge, with an honest spread.
 * Errors: `reading-out-of-range` for a figure that cannot be, with the range, or for volts what is likely (volts.ts).
 */
export function levelFromReading(reading: Reading, battery: Battery): Outcome<Level> {
  if (reading.kind === "percent") return ofPercent(reading, battery);
  if (reading.kind === "bars") return ofBars(reading, battery);
  if (reading.kind === "volts") {
    const level = levelFromVolts(reading, battery);
    return level ? good(level) : bad(outOfVolts(reading, battery));
  }
  return good(battery.chemistry === "lfp" ? even(0.98, 1, 0.005) : even(0.93, 1, 0.01));
}
