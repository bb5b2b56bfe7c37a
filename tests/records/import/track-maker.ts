import { type Dice, diceOf } from "../../../src/units/dice.js";

/** A course for a made-up vehicle: metres east and north per stretch, its speed, and what it climbs. */
export interface Stretch {
  readonly eastM: number;
  readonly northM: number;
  readonly speedMs: number;
  readonly climbM?: number;
}
export interface Pause {
  readonly standS: number;
}
export interface Made {
  latDeg: number;
  lonDeg: number;
  heightM: number | null;
  utcMs: number | null;
}

/** Metres to a degree of latitude and of longitude. Source: the usual WGS 84 series (NGA degree-length calculator). */
export function degreeLengths(latDeg: number): { latM: number; lonM: number } {
  const a = (latDeg * Math.PI) / 180;
  return {
    latM: 111132.92 - 559.82 * Math.cos(2 * a) + 1.175 * Math.cos(4 * a) - 0.0023 * Math.cos(6 * a),
    lonM: 111412.84 * Math.cos(a) - 93.5 * Math.cos(3 * a) + 0.118 * Math.cos(5 * a),
  };
}

export interface Making {
  readonly everyS?: number;
  readonly start?: { readonly latDeg: number; readonly lonDeg: number };
  readonly shakeM?: number;
  readonly heightShakeM?: number;
  readonly seed?: number;
}

/** Points of a course, one every `everyS` seconds, with an even spread of receiver noise where asked for. */
export function drive(course: readonly (Stretch | Pause)[], making: Making = {}): Made[] {
  const { everyS = 1, start = { latDeg: -4.05, lonDeg: 39.66 }, shakeM = 0, heightShakeM = 0 } = making;
  const dice = diceOf(making.seed ?? 7);
  const near = degreeLengths(start.latDeg);
  const points: Made[] = [];
  let east = 0;
  let north = 0;
  let height = 20;
  let utcMs = Date.UTC(2027, 1, 10, 4);
  const put = (): void => {
    points.push({
      latDeg: start.latDeg + (north + shake(dice, shakeM)) / near.latM,
      lonDeg: start.lonDeg + (east + shake(dice, shakeM)) / near.lonM,
      heightM: height + shake(dice, heightShakeM),
      utcMs,
    });
    utcMs += everyS * 1000;
  };
  for (const part of course) {
    const seconds = "standS" in part ? part.standS : Math.hypot(part.eastM, part.northM) / part.speedMs;
    const steps = Math.round(seconds / everyS);
    for (let k = 0; k < steps; k++) {
      put();
      if ("standS" in part) continue;
      east += part.eastM / steps;
      north += part.northM / steps;
      height += (part.climbM ?? 0) / steps;
    }
  }
  put();
  return points;
}

const shake = (dice: Dice, most: number): number => (2 * dice() - 1) * most;

export const gpxOf = (points: readonly Made[], more = ""): string =>
  `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="tests" xmlns="http://www.topografix.com/GPX/1/1">
${more}<trk><name>Morning</name><trkseg>
${points.map(pointXml).join("\n")}
</trkseg></trk>
</gpx>`;

export const pointXml = (point: Made): string =>
  `<trkpt lat="${point.latDeg.toFixed(7)}" lon="${point.lonDeg.toFixed(7)}">${
    point.heightM === null ? "" : `<ele>${point.heightM.toFixed(2)}</ele>`
  }${point.utcMs === null ? "" : `<time>${new Date(point.utcMs).toISOString()}</time>`}</trkpt>`;
