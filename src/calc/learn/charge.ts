import { type Belief, carry, type Sight, setAnew } from "./belief.js";
import { grounded } from "./gauge-sight.js";
import { listen } from "./limits.js";
import { at, type FullLevel, factor, placeOf, type VehicleLearned } from "./parts.js";
import { levelSight } from "./read-gauge.js";

/** What the plug did between two looks at the gauge. Wh at the meter; efficiency from there into the set's charge. */
export type ChargeSeen =
  | { readonly kind: "none" }
  | { readonly kind: "unknown" }
  | ({ readonly kind: "meter"; readonly gridWh: number; readonly efficiency: number } & Charged)
  | ({ readonly kind: "hours"; readonly intoSetWh: number } & Charged);

interface Charged {
  readonly atUtcMs: number;
  readonly usableWh: number;
  /** The hours were enough for a full charge. */
  readonly inTime: boolean;
  readonly fullLevel: FullLevel;
}

export interface SunMeterSeen {
  readonly seenWh: number;
  /** What was to be expected at factors 1, and the spread of the day's sky in Wh. */
  readonly openSunWh: number;
  readonly shadeSunWh: number;
  readonly sdWh: number;
}

/** Takes in a day's reading of the roof's own meter. Worked in Wh, so that sums over many days come out right, and not their medians. */
export function readSunMeter(learned: VehicleLearned, seen: SunMeterSeen): VehicleLearned {
  const { belief } = learned;
  const roof = factor(belief, "roof");
  const shadeWh = seen.shadeSunWh * factor(belief, "shade") * roof;
  const expectedWh = seen.openSunWh * roof + shadeWh;
  if (expectedWh < LEAST_SUN_WH) return learned;
  const sight: Sight = {
    slopes: [
      [placeOf("roof"), expectedWh],
      [placeOf("shade"), shadeWh],
    ],
    expected: expectedWh,
    seen: seen.seenWh,
    variance: seen.sdWh ** 2 + (METER_SHARE * expectedWh) ** 2,
  };
  const heard = listen(belief, sight);
  // Dark days lie further off than bright ones and count as much: listened to less, they would leave the roof too good.
  return { ...learned, belief: (Math.abs(heard.z) < PLAIN_SD ? listen(belief, sight, { sure: true }) : heard).belief };
}
const PLAIN_SD = 3;
const LEAST_SUN_WH = 20;
const METER_SHARE = 0.03; // class of a cheap meter and its rounding; common practice, no source

/** What the plug put in. A meter moves the level by its units; hours alone by what the charger would have given. */
export function charge(learned: VehicleLearned, seen: ChargeSeen): VehicleLearned {
  if (seen.kind === "none") return learned;
  if (seen.kind === "unknown") return { ...learned, open: null, assumedFull: null, levelAtUtcMs: null };
  const belief = grounded(learned.belief);
  const told = { ...learned, open: null, levelAtUtcMs: seen.atUtcMs, assumedFull: seen.inTime ? seen.fullLevel : null };
  const full = likelyFull(seen.fullLevel);
  if (learned.levelAtUtcMs === null) {
    if (!seen.inTime) return { ...learned, open: null };
    return { ...told, belief: setAnew(learned.belief, placeOf("level"), full.share, full.sdShare ** 2) };
  }
  const charged = seen.kind === "meter" ? byMeter(belief, seen) : byHours(belief, seen);
  if (!seen.inTime) return { ...told, belief: charged };
  const sight = levelSight(charged, full);
  const heard = listen(charged, sight);
  // The meter says that it stopped well short: then it did.
  if (heard.z > METER_SHORT_SD) return { ...told, belief: charged, assumedFull: null };
  return { ...told, belief: heard.belief };
}
const METER_SHORT_SD = 2;

/** Hours enough for a full charge: so it was, but for a cut, or a plug pulled early. */
const likelyFull = ({ share, sdShare }: FullLevel): FullLevel => ({
  share: share - CUT_MEAN,
  sdShare: Math.hypot(sdShare, CUT_SD),
});
const CUT_SD = 0.06;
/** What cuts take off on the mean of all nights. */
const CUT_MEAN = 0.015;

function byMeter(belief: Belief, seen: Extract<ChargeSeen, { kind: "meter" }>): Belief {
  const gain =
    (seen.gridWh * seen.efficiency * factor(belief, "charger")) / (seen.usableWh * factor(belief, "capacity"));
  return carry(belief, placeOf("level"), {
    value: Math.min(at(belief, "level") + gain, 1 + OVER_FULL),
    slopes: [
      [placeOf("level"), 1],
      [placeOf("capacity"), -gain],
      [placeOf("charger"), gain],
    ],
    variance: (METER_SHARE * gain) ** 2 + 0.01 ** 2,
  });
}
/** Before anything contradicts it, the level worked out may pass full by this much: then the set holds more than was held. */
const OVER_FULL = 0.3;

function byHours(belief: Belief, seen: Extract<ChargeSeen, { kind: "hours" }>): Belief {
  const gain = seen.intoSetWh / (seen.usableWh * factor(belief, "capacity"));
  const reached = at(belief, "level") + gain;
  const full = reached >= seen.fullLevel.share;
  return carry(belief, placeOf("level"), {
    value: Math.min(reached, seen.fullLevel.share),
    slopes: full ? [] : [[placeOf("level"), 1]],
    variance: (full ? CUT_SD : SHORT_CHARGE_SD * gain) ** 2,
  });
}
/** Doubt of a charge known by its hours alone. Common practice, no source. */
const SHORT_CHARGE_SD = 0.15;
