import { readGpx } from "../../src/records/import/gpx.js";
import { roundsOf } from "../../src/records/import/track-round.js";
import { drive, gpxOf } from "../records/import/track-maker.js";
import { againstMs, type BenchRow, bestMs } from "./table.js";

export function run(): readonly BenchRow[] {
  const day = Array.from({ length: 30 }, (_, k) => [
    { eastM: 2600 * Math.cos(k), northM: 2600 * Math.sin(k), speedMs: 4, climbM: k % 2 === 0 ? 30 : -30 },
    { standS: 1350 },
  ]).flat();
  const text = gpxOf(drive(day, { shakeM: 0.3, heightShakeM: 2 }));
  const took = bestMs(5, () => {
    const read = readGpx(text);
    if (!read.ok || roundsOf(read.value).length !== 1) throw new Error("the track was not read");
  });
  return [againstMs(`a track file of 60,000 points, ${(text.length / 2 ** 20).toFixed(1)} MB`, took, 1000)];
}
