import type { RoundPart } from "../round.js";
import type { ImportedTrack } from "./track-round.js";

/** What a track cannot tell: guesses, to be changed by whoever knows the road. Common practice, no source. */
export const TRACK_GUESS = { surface: "asphalt", surroundings: "town", stopsPerKm: 2, shade: "part" } as const;

/** The parts of a round from a track, ready to be edited and kept; stops without a name get theirs from `stopName` (1, 2, ...). */
export function roundParts(track: ImportedTrack, stopName: (count: number) => string): RoundPart[] {
  let stops = 0;
  return track.parts.map((part): RoundPart => {
    if (part.kind === "leg")
      return {
        ...part,
        surface: TRACK_GUESS.surface,
        surroundings: TRACK_GUESS.surroundings,
        stopsPerKm: Math.min(30, part.stopsPerKm ?? TRACK_GUESS.stopsPerKm),
      };
    stops++;
    return {
      ...part,
      name: part.name === "" ? stopName(stops) : part.name,
      shade: TRACK_GUESS.shade,
      payloadChangeKg: 0,
      socketKw: null,
    };
  });
}
