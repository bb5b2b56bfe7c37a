import { expect, test } from "vitest";
import { readGpx } from "../../../src/records/import/gpx.js";
import { roundParts } from "../../../src/records/import/to-round.js";
import { roundsOf } from "../../../src/records/import/track-round.js";
import { roundKind } from "../../../src/records/round.js";
import { drive, gpxOf } from "./track-maker.js";

test("a track's parts are a round that the records take, with every stop named", () => {
  const read = readGpx(
    gpxOf(
      drive([
        { eastM: 0, northM: 2000, speedMs: 6, climbM: 40 },
        { standS: 400 },
        { eastM: 2000, northM: 0, speedMs: 6 },
        { standS: 800 },
        { eastM: -2000, northM: -2000, speedMs: 6, climbM: -40 },
      ]),
    ),
  );
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const [track] = roundsOf(read.value);
  if (!track) throw new Error("no round");
  const parts = roundParts(track, (count) => `Stop ${count}`);
  expect(parts.flatMap((part) => (part.kind === "stop" ? [part.name] : []))).toEqual(["Stop 1", "Stop 2"]);
  const round = { id: "r1", v: 1, yardId: "y1", name: "Morning", parts };
  expect(roundKind.schema().safeParse(round).error?.issues ?? []).toEqual([]);
});
