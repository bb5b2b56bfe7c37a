import type { StripModel } from "./strip-model.js";

/** Heights of the lanes in px; the floor of a picture's text is 14 px. */
export interface StripSize {
  readonly sun: number;
  readonly gap: number;
  readonly level: number;
  readonly road: number;
  readonly axis: number;
  readonly side: number;
  /** Text size; 0 writes nothing. */
  readonly text: number;
}
export const STRIP_SIZES = {
  card: { sun: 42, gap: 8, level: 142, road: 30, axis: 22, side: 10, text: 14 },
  compact: { sun: 30, gap: 5, level: 104, road: 26, axis: 21, side: 10, text: 14 },
  large: { sun: 64, gap: 8, level: 180, road: 36, axis: 26, side: 14, text: 16 },
  row: { sun: 11, gap: 2, level: 36, road: 6, axis: 0, side: 1, text: 0 },
} satisfies Record<string, StripSize>;
export type StripKind = keyof typeof STRIP_SIZES | "print";
export const sizeOf = (kind: StripKind): StripSize => STRIP_SIZES[kind === "print" ? "large" : kind];

export type Point = readonly [x: number, y: number];

/** Where hours and levels fall on the paper. */
export interface StripFrame {
  readonly width: number;
  readonly height: number;
  readonly x: (hour: number) => number;
  readonly y: (level: number) => number;
  readonly pxPerHour: number;
  readonly levelTop: number;
  readonly lineY: number;
  readonly levelBottom: number;
  readonly roadTop: number;
  readonly axisTop: number;
}

const LEAST_BELOW = 0.16; // of the lane: always room for the words under the line
const MOST_BELOW = 0.45;

/** Share of charge shown below the line: enough for the worst guess, never more than nearly half the lane. */
function depthBelow(model: StripModel, size: StripSize): number {
  const above = 1 - model.reserve;
  const forWords = size.text ? (size.text + 8) / size.level : 0;
  const part = Math.max(LEAST_BELOW, Math.min(0.3, forWords));
  const least = (part / (1 - part)) * above;
  const most = (MOST_BELOW / (1 - MOST_BELOW)) * above;
  const need = model.known ? model.reserve - Math.min(...model.low) + 0.03 : 0;
  return Math.min(most, Math.max(least, need));
}

export function frameOf(model: StripModel, size: StripSize, width: number): StripFrame {
  const pxPerHour = (width - 2 * size.side) / Math.max(0.5, model.toH - model.fromH);
  const levelTop = size.sun + size.gap;
  const pxPerShare = size.level / (1 - model.reserve + depthBelow(model, size));
  const levelBottom = levelTop + size.level;
  const roadTop = levelBottom + (size.text ? 8 : 2);
  const axisTop = roadTop + size.road;
  return {
    width,
    height: axisTop + size.axis + (size.text ? 2 : 0),
    x: (hour) => size.side + (hour - model.fromH) * pxPerHour,
    y: (level) => levelTop + (1 - level) * pxPerShare,
    pxPerHour,
    levelTop,
    lineY: levelTop + (1 - model.reserve) * pxPerShare,
    levelBottom,
    roadTop,
    axisTop,
  };
}

/** Points of a line on the paper. */
export const pointsOf = (frame: StripFrame, hours: readonly number[], levels: readonly number[]): Point[] =>
  hours.map((hour, i) => [frame.x(hour), frame.y(levels[i] as number)]);

/** The part of a line on one side of `edgeY`; beyond it the line lies on the edge, with the crossings put in. */
export function keptSide(points: readonly Point[], edgeY: number, side: "above" | "below"): Point[] {
  const inside = (y: number) => (side === "above" ? y <= edgeY : y >= edgeY);
  const kept: Point[] = [];
  points.forEach(([x, y], i) => {
    const before = points[i - 1];
    if (before && inside(before[1]) !== inside(y) && before[1] !== y)
      kept.push([before[0] + ((edgeY - before[1]) / (y - before[1])) * (x - before[0]), edgeY]);
    kept.push([x, inside(y) ? y : edgeY]);
  });
  return kept;
}

const MOST_POINTS = 60;

/** Drops points that the eye would not miss (Ramer 1972, Douglas and Peucker 1973), until at most 60 are left. */
export function thinned(points: readonly Point[], tolerancePx = 0.35): Point[] {
  if (points.length < 3) return [...points];
  const keep = new Set([0, points.length - 1]);
  const split = (from: number, to: number): void => {
    const [x0, y0] = points[from] as Point;
    const [x1, y1] = points[to] as Point;
    let worst = tolerancePx;
    let at = -1;
    for (let i = from + 1; i < to; i++) {
      const [x, y] = points[i] as Point;
      const off = x1 > x0 ? Math.abs(y - (y0 + ((x - x0) / (x1 - x0)) * (y1 - y0))) : Math.abs(y - y0);
      if (off > worst) {
        worst = off;
        at = i;
      }
    }
    if (at < 0) return;
    keep.add(at);
    split(from, at);
    split(at, to);
  };
  split(0, points.length - 1);
  const left = points.filter((_, i) => keep.has(i));
  return left.length > MOST_POINTS ? thinned(points, tolerancePx * 1.6) : left;
}

const at = ([x, y]: Point): string => `${x.toFixed(1)} ${y.toFixed(1)}`;
export const pathOf = (points: readonly Point[]): string => (points.length ? `M${points.map(at).join("L")}` : "");

/** The area between a line and a level height. */
export function areaTo(points: readonly Point[], edgeY: number): string {
  const first = points[0];
  const last = points[points.length - 1];
  if (!first || !last) return "";
  return `M${at([first[0], edgeY])}L${points.map(at).join("L")}L${at([last[0], edgeY])}Z`;
}

/** The area between two lines. */
export const areaBetween = (upper: readonly Point[], lower: readonly Point[]): string =>
  upper.length ? `M${upper.map(at).join("L")}L${[...lower].reverse().map(at).join("L")}Z` : "";

/** Paths of the level lane. Empty strings where there is nothing to draw. */
export interface LevelPaths {
  readonly sure: string;
  readonly doubt: string;
  readonly highEdge: string;
  readonly lowEdge: string;
  readonly likely: string;
  /** Under the line: likely missing, and maybe missing. */
  readonly missing: string;
  readonly maybeMissing: string;
  readonly plugged: readonly string[];
}

export function levelPaths(model: StripModel, frame: StripFrame): LevelPaths {
  const low = pointsOf(frame, model.hours, model.low);
  const mid = pointsOf(frame, model.hours, model.mid);
  const high = pointsOf(frame, model.hours, model.high);
  const above = (points: readonly Point[]) => thinned(keptSide(points, frame.lineY, "above"));
  const below = (points: readonly Point[]) => thinned(keptSide(points, frame.lineY, "below"));
  const dips = (levels: readonly number[]) => levels.some((level) => level < model.reserve);
  return {
    sure: areaTo(above(low), frame.lineY),
    doubt: areaBetween(above(high), above(low)),
    highEdge: pathOf(above(high)),
    lowEdge: pathOf(above(low)),
    likely: pathOf(thinned(mid)),
    missing: dips(model.mid) ? areaTo(below(mid), frame.lineY) : "",
    maybeMissing: dips(model.low) ? areaTo(below(low), frame.lineY) : "",
    plugged: model.road
      .filter((block) => block.kind === "plug")
      .map((block) => pathOf(thinned(stretch(model, frame, block.fromH, block.toH)))),
  };
}

/** The likely line between two hours. */
function stretch(model: StripModel, frame: StripFrame, fromH: number, toH: number): Point[] {
  const inside = model.hours.map((hour, i) => [hour, model.mid[i] as number] as const);
  const points = inside.filter(([hour]) => hour >= fromH - 1e-6 && hour <= toH + 1e-6);
  return points.length > 1 ? points.map(([hour, level]) => [frame.x(hour), frame.y(level)]) : [];
}

/** Highest point on the paper (smallest y) that the band reaches between two x. */
export function bandTop(model: StripModel, frame: StripFrame, fromX: number, toX: number): number {
  let top = frame.lineY;
  model.hours.forEach((hour, i) => {
    const x = frame.x(hour);
    if (x >= fromX - 2 && x <= toX + 2) top = Math.min(top, frame.y(model.high[i] as number));
  });
  return top;
}

/** Lowest point on the paper (largest y) of the sure mass between two x. */
export function massTop(model: StripModel, frame: StripFrame, fromX: number, toX: number): number {
  let top = frame.levelTop;
  model.hours.forEach((hour, i) => {
    const x = frame.x(hour);
    if (x >= fromX - 2 && x <= toX + 2) top = Math.max(top, Math.min(frame.lineY, frame.y(model.low[i] as number)));
  });
  return top;
}

const SKY_PX = 4;
/** How far the columns of the sun reach down between two x. */
export function columnsBottom(
  model: StripModel,
  frame: StripFrame,
  size: StripSize,
  fromX: number,
  toX: number,
): number {
  const column = ({ hour, offered }: StripModel["sun"][number]) =>
    frame.x(hour) < toX && frame.x(hour + 1) > fromX ? SKY_PX + offered * (size.sun - SKY_PX - 2) : SKY_PX;
  return Math.max(SKY_PX, ...model.sun.map(column));
}

/** Foot of the words of the sun lane between two x: clear of the columns there. */
export const sunWordsY = (model: StripModel, frame: StripFrame, size: StripSize, fromX: number, toX: number): number =>
  Math.max(SKY_PX + size.text + 7, columnsBottom(model, frame, size, fromX, toX) + size.text + 1);

/** How far the sun lane reaches down between two x: its columns, and its words at both ends. */
function sunBottom(model: StripModel, frame: StripFrame, size: StripSize, fromX: number, toX: number): number {
  const right = frame.width - size.side - 56;
  const left = size.side + 30;
  return Math.max(
    columnsBottom(model, frame, size, fromX, toX),
    toX > right ? sunWordsY(model, frame, size, right, frame.width) + 3 : 0,
    fromX < left ? sunWordsY(model, frame, size, 0, left) + 3 : 0,
  );
}

/** Where the words at the lowest hour stand, and how. */
export interface FlagSpot {
  readonly side: "start" | "middle" | "end";
  readonly textX: number;
  /** Foot of the lower line of words. */
  readonly base: number;
  /** True: clear ground above the band. False: no such room on this day, the words stand in the mass. */
  readonly clear: boolean;
}

/** Words under the line: at the left, or at the right when something is missing below the line there. */
export function lineWordsSide(model: StripModel, frame: StripFrame, wide: number): "start" | "end" {
  const isFree = (fromX: number, toX: number) =>
    model.hours.every((hour, i) => {
      const x = frame.x(hour);
      return x < fromX || x > toX || (model.low[i] as number) >= model.reserve;
    });
  const left = frame.x(model.fromH);
  const right = frame.x(model.toH);
  return !model.known || isFree(left, left + wide + 6) || !isFree(right - wide - 6, right) ? "start" : "end";
}

export interface Rect {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}
const meet = (a: Rect, b: Rect): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Where the reading stands: in the mass at the left when that is tall enough, else above the band. */
export interface StartSpot {
  readonly inMass: boolean;
  /** False: there is room for the figure alone. */
  readonly withNote: boolean;
  /** Foot of the (lower) line. */
  readonly base: number;
  readonly box: Rect;
}

export function startSpot(ask: {
  readonly model: StripModel;
  readonly frame: StripFrame;
  readonly size: StripSize;
  readonly figureWide: number;
  readonly noteWide: number;
}): StartSpot | null {
  const { model, frame } = ask;
  const { text } = ask.size;
  const left = frame.x(model.fromH);
  const inMass = (wide: number, tall: number, withNote: boolean): StartSpot | null => {
    if (frame.lineY - massTop(model, frame, left, left + wide) <= tall + 14) return null;
    const base = frame.lineY - 10;
    return { inMass: true, withNote, base, box: { left, right: left + wide, top: base - tall, bottom: base } };
  };
  const right = left + ask.figureWide + ask.noteWide + 12;
  const base = bandTop(model, frame, left, right) - 8;
  const ceiling = sunBottom(model, frame, ask.size, left, right) + 1.5 * text;
  const above = { inMass: false, withNote: true, base, box: { left, right, top: base - 1.7 * text, bottom: base + 4 } };
  const stacked = inMass(Math.max(ask.figureWide, ask.noteWide) + 14, 2.7 * text, true);
  if (stacked) return stacked;
  // A nearly full set leaves no clear ground above: then the figure alone, in the mass, or nothing where a low picture has no room for it.
  return base < ceiling ? inMass(ask.figureWide + 14, 1.7 * text, false) : above;
}

interface FlagAsk {
  readonly model: StripModel;
  readonly frame: StripFrame;
  readonly size: StripSize;
  /** Of the pole. */
  readonly x: number;
  readonly wide: number;
  readonly tall: number;
  /** Words that are already there. */
  readonly avoid: Rect | null;
}

/** Null where neither clear ground nor the mass has room: the verdict says the same words above the picture. */
export function flagSpot(ask: FlagAsk): FlagSpot | null {
  const spots = (["end", "start", "middle"] as const).map((side) => spotAt(ask, side)).filter((spot) => spot !== null);
  return spots.find((spot) => spot.clear) ?? spots[0] ?? null;
}

function spotAt(ask: FlagAsk, side: FlagSpot["side"]): FlagSpot | null {
  const { model, frame, size, x, wide, tall } = ask;
  const from = side === "end" ? x - wide : side === "start" ? x : x - wide / 2;
  if (from < 2 || from + wide > frame.width - 2) return null;
  const band = bandTop(model, frame, from, from + wide);
  const clear = band - 6 - tall > sunBottom(model, frame, size, from, from + wide);
  const inMass = massTop(model, frame, from, from + wide) + tall + 12;
  if (!clear && inMass > frame.lineY - 4) return null;
  const base = clear ? Math.min(band - 7, frame.lineY - 8) : Math.min(frame.lineY - 10, inMass);
  if (ask.avoid && meet({ left: from, right: from + wide, top: base - tall, bottom: base }, ask.avoid)) return null;
  return { side, textX: side === "middle" ? x : x + (side === "end" ? -7 : 7), base, clear };
}
