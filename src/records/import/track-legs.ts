import { compassDeg, toDeg } from "../../units/numbers.js";

/** A piece of track between two of its points. */
export interface Piece {
  readonly from: number;
  readonly to: number;
  readonly lengthM: number;
  readonly eastM: number;
  readonly northM: number;
  /** Rise and fall with the noise taken out. */
  readonly climbM: number;
  readonly dropM: number;
}

/** What a piece is cut from. */
export interface LegTrack {
  readonly alongM: Float64Array;
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  readonly quietM: Float64Array | null;
}

/** Shortest piece looked at on its own, and shortest leg worth a line on a screen. [m] */
const PIECE_M = 200;
const LEG_M = 500;
/** Joining two pieces may hide this much: metres of way lost to turning, or slopes that differ as much. */
const HIDDEN_M = 400;
/** Makes two 2 km stretches of 0 and 4 % hide as much as a right angle between two stretches of 700 m. */
const SLOPE_WEIGHT = 300;
/** A piece that ends up less than this share of its length away has no one direction. */
const STRAIGHT_SHARE = 0.7;

/**
 * Cuts a stretch of driving where its direction or slope changes for good, into at most `most` legs.
 * Bottom-up joining of the two neighbours that hide least (Ward's method, J. Am. Stat. Assoc. 58, 1963, applied to a line).
 */
export function legsBetween(track: LegTrack, from: number, to: number, most: number): Piece[] {
  const pieces = chopped(track, from, to);
  while (pieces.length > 1) {
    let best = 0;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < pieces.length - 1; i++) {
      const cost = hiddenBy(pieces[i] as Piece, pieces[i + 1] as Piece);
      if (cost < least) {
        least = cost;
        best = i;
      }
    }
    if (least > HIDDEN_M && pieces.length <= most) break;
    pieces.splice(best, 2, both(pieces[best] as Piece, pieces[best + 1] as Piece));
  }
  return pieces;
}

function chopped(track: LegTrack, from: number, to: number): Piece[] {
  const wholeM = (track.alongM[to] as number) - (track.alongM[from] as number);
  const sizeM = Math.max(PIECE_M, wholeM / 400);
  const pieces: Piece[] = [];
  let start = from;
  for (let i = from + 1; i <= to; i++) {
    const lengthM = (track.alongM[i] as number) - (track.alongM[start] as number);
    if (lengthM < sizeM && i < to) continue;
    pieces.push(pieceOf(track, start, i));
    start = i;
  }
  return pieces;
}

function pieceOf(track: LegTrack, from: number, to: number): Piece {
  let climbM = 0;
  let dropM = 0;
  for (let i = from + 1; track.quietM && i <= to; i++) {
    const rise = (track.quietM[i] as number) - (track.quietM[i - 1] as number);
    if (rise > 0) climbM += rise;
    else dropM -= rise;
  }
  return {
    from,
    to,
    lengthM: (track.alongM[to] as number) - (track.alongM[from] as number),
    eastM: (track.eastM[to] as number) - (track.eastM[from] as number),
    northM: (track.northM[to] as number) - (track.northM[from] as number),
    climbM,
    dropM,
  };
}

const both = (a: Piece, b: Piece): Piece => ({
  from: a.from,
  to: b.to,
  lengthM: a.lengthM + b.lengthM,
  eastM: a.eastM + b.eastM,
  northM: a.northM + b.northM,
  climbM: a.climbM + b.climbM,
  dropM: a.dropM + b.dropM,
});

const away = (piece: Piece): number => Math.hypot(piece.eastM, piece.northM);
const slope = (piece: Piece): number => (piece.lengthM > 0 ? (piece.climbM - piece.dropM) / piece.lengthM : 0);

/** Metres of way that one leg instead of two would hide; nothing when one of them is too short to be a leg. */
function hiddenBy(a: Piece, b: Piece): number {
  const turning = away(a) + away(b) - away(both(a, b));
  const shared = (a.lengthM * b.lengthM) / Math.max(1, a.lengthM + b.lengthM);
  const hidden = turning + SLOPE_WEIGHT * shared * (slope(a) - slope(b)) ** 2;
  return Math.min(a.lengthM, b.lengthM) < LEG_M ? Math.min(hidden, HIDDEN_M) : hidden;
}

/** Main direction of a piece, clockwise from north; null when it winds about. */
export const headingOf = (piece: Piece): number | null =>
  away(piece) < STRAIGHT_SHARE * piece.lengthM ? null : compassDeg(toDeg(Math.atan2(piece.eastM, piece.northM)));
