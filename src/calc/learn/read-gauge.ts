import { addDoubt, type Belief, DEAF_AT_SD, type Heard, hear, type Sight, setAnew } from "./belief.js";
import { type GaugeSeen, gaugeSight, grounded } from "./gauge-sight.js";
import { leanWith, listen } from "./limits.js";
import { at, daySdLog, type FullLevel, placeOf, type VehicleLearned } from "./parts.js";

export type { GaugeSeen } from "./gauge-sight.js";

/** Misses that are kept for the width of the band. */
export const KEPT_MISSES = 60;

/** Takes in a look at the gauge: sets the level right and, after a day's driving, teaches every part the day depended on. */
export function readGauge(before: VehicleLearned, seen: GaugeSeen): VehicleLearned {
  if (seen.full) return fullSeen(before, seen.atUtcMs, seen);
  const learned = before.assumedFull ? afterNight(before, before.assumedFull, seen) : before;
  const known = learned.levelAtUtcMs !== null;
  const belief = known ? learned.belief : anyLevel(learned.belief);
  const sight = gaugeSight(belief, seen);
  if (known && learned.open?.drive === 0) return levelAlone(learned, sight, seen.atUtcMs);
  const heard = listen(belief, sight, { sure: seen.sure || !known, lean: learned.lean });
  const odd = known && !seen.sure && (heard.weight < 0.1 || isSlip(heard, sight, seen.slips));
  const told = { ...learned, open: null, levelAtUtcMs: seen.atUtcMs };
  if (odd) return oddReading(told, seen);
  const taught = learned.open && known;
  return {
    ...told,
    belief: grounded(heard.belief),
    oddReadings: 0,
    lean: taught ? leanWith(learned.lean, heard.z) : learned.lean,
    days: learned.days + (taught ? 1 : 0),
    dayScatter: taught ? scatterWith(learned, learned.open.drive, heard, sight) : learned.dayScatter,
    misses: taught ? [...learned.misses, Math.round(heard.z * 1000) / 1000].slice(-KEPT_MISSES) : learned.misses,
  };
}

/** After a drive of which nobody knows enough: the gauge says the level, and nothing of anything else. */
function levelAlone(learned: VehicleLearned, sight: Sight, atUtcMs: number): VehicleLearned {
  const { belief } = hear(learned.belief, sight, [], true);
  const place = placeOf("level");
  const variance = belief.cov[place * (belief.mean.length + 1)] as number;
  const alone = setAnew(learned.belief, place, at(belief, "level"), variance);
  return { ...learned, open: null, oddReadings: 0, levelAtUtcMs: atUtcMs, belief: grounded(alone) };
}

/** A figure that does not fit well where ten times as much, or a tenth, fits. */
function isSlip({ z, spread }: Heard, { expected }: Sight, slips: readonly number[]): boolean {
  const fits = (share: number) => Math.abs(share - expected) < 1.5 * Math.sqrt(spread);
  return Math.abs(z) > 2.2 && slips.some(fits);
}

const anyLevel = (belief: Belief): Belief => setAnew(belief, placeOf("level"), 0.5, 4);

/** Nights that should have been full and were not: a cut, a plug pulled early. Common practice, no source. */
const CUT_SHARE = 0.1;
/** A cut leaves any level of the upper half. */
const CUT_DENSITY = 1 / 0.5;

/**
 * Full, or cut short? The gauge after a night tells by which of the two is likelier (Bayes' rule): if full, the level is sure and the gauge's
 * own offset is learned; if cut short, only the gauge is left to go by.
 */
function afterNight(learned: VehicleLearned, stopsAt: FullLevel, seen: GaugeSeen): VehicleLearned {
  const sight = gaugeSight(learned.belief, seen);
  const n = Math.sqrt(learned.belief.cov.length);
  const offsetVar = learned.belief.cov[placeOf("gaugeOffset") * (n + 1)] as number;
  const spread = Math.sqrt(seen.sdShare ** 2 + offsetVar + stopsAt.sdShare ** 2);
  const z = (sight.seen - sight.expected) / spread;
  const ifFull = ((1 - CUT_SHARE) * Math.exp(-0.5 * z * z)) / (spread * Math.sqrt(2 * Math.PI));
  const full = z > 0 ? 1 : ifFull / (ifFull + CUT_SHARE * CUT_DENSITY);
  const told = { ...learned, assumedFull: null };
  if (full < 0.5) return { ...told, levelAtUtcMs: null };
  const apart = sight.seen - sight.expected;
  const surer = {
    share: stopsAt.share + (1 - full) * Math.min(0, apart),
    sdShare: Math.hypot(stopsAt.sdShare, Math.sqrt(full * (1 - full)) * apart),
  };
  return { ...told, belief: listen(learned.belief, levelSight(learned.belief, surer), { sure: true }).belief };
}

/**
 * A reading that does not fit is set aside once. When the next one does not fit either, the level is taken from it, and the vehicle may have
 * changed: its drive factor becomes less sure, so that the days to come are listened to.
 */
function oddReading(learned: VehicleLearned, seen: GaugeSeen): VehicleLearned {
  if (learned.oddReadings === 0) return { ...learned, oddReadings: 1 };
  const drive = placeOf("drive");
  const doubtful = addDoubt(anyLevel(learned.belief), drive, CHANGED_SD ** 2);
  return { ...learned, belief: listen(doubtful, gaugeSight(doubtful, seen), { sure: true }).belief, oddReadings: 0 };
}
const CHANGED_SD = 0.1;

/**
 * Own scatter from day to day, by what each day's miss says of it (the step of expectation maximisation). Older days fade by 1.5 % a day.
 * Source: Dempster, Laird and Rubin (1977), J. R. Stat. Soc. B 39, 1.
 */
function scatterWith(learned: VehicleLearned, drive: number, heard: Heard, sight: Sight) {
  const held = daySdLog(learned) ** 2;
  const part = (held * drive * drive) / heard.spread;
  const likely = (held * drive * ((sight.seen - sight.expected) / heard.spread)) ** 2 + held * (1 - part);
  const fade = 0.985;
  const { days, sumSquares } = learned.dayScatter;
  return { days: fade * days + heard.weight, sumSquares: fade * sumSquares + heard.weight * likely };
}

/**
 * A finished charge says the level itself; with a meter before it, that tells how much the set holds. Far from what was held it was charged and
 * nobody wrote it: then it teaches nothing.
 */
function fullSeen(learned: VehicleLearned, atUtcMs: number, full: FullLevel): VehicleLearned {
  const told = { ...learned, open: null, oddReadings: 0, assumedFull: null, levelAtUtcMs: atUtcMs };
  const anew = { ...told, belief: setAnew(learned.belief, placeOf("level"), full.share, full.sdShare ** 2) };
  if (learned.levelAtUtcMs === null) return anew;
  const heard = listen(learned.belief, levelSight(learned.belief, full), { sure: true });
  return Math.abs(heard.z) > DEAF_AT_SD ? anew : { ...told, belief: heard.belief };
}

export const levelSight = (belief: Belief, { share, sdShare }: FullLevel): Sight => ({
  slopes: [[placeOf("level"), 1]],
  expected: at(belief, "level"),
  seen: share,
  variance: sdShare ** 2,
});
