import { firstBelow } from "../../../src/calc/day/crossings.js";
import type { DaySegment } from "../../../src/calc/day/segments.js";
import { BOOK, walkDay } from "../../../src/calc/day/simulate.js";
import { cutSteps } from "../../../src/calc/day/steps.js";
import { storeTable } from "../../../src/calc/day/store-table.js";
import { scoreQuantiles } from "../../../src/calc/learn/score.js";

const HOUR = 3_600_000;

interface Piece {
  readonly fromH: number;
  readonly toH: number;
  readonly what: DaySegment["kind"];
  readonly distanceKm: number;
  readonly driveWhPerKm: number;
  readonly otherW: number;
  readonly sunW: number;
  readonly chargerW: number;
}

const segmentOf = (piece: Piece): DaySegment => ({
  fromUtcMs: piece.fromH * HOUR,
  toUtcMs: piece.toH * HOUR,
  kind: piece.what,
  label: piece.what,
  km: piece.distanceKm,
  drainW: (piece.distanceKm * piece.driveWhPerKm) / (piece.toH - piece.fromH),
  regenW: 0,
  otherW: piece.otherW,
  headingDeg: null,
  directBlocked: 0,
  diffuseBlocked: 0,
  windMs: 0,
  airC: 25,
  chargerW: piece.chargerW,
  payloadKg: 0,
  onShift: true,
});

function vehicleDaySoc(given: {
  packWh: number;
  startSocPct: number;
  floorSocPct: number;
  chargerEfficiency: number;
  segments: readonly Piece[];
}) {
  const segments = given.segments.map(segmentOf);
  const { columns, rows } = cutSteps(segments, () => false);
  const whole = [
    { share: 0, w: 1e9 },
    { share: 1, w: 1e9 },
  ];
  const store = storeTable({
    usableWh: given.packWh,
    lossPerW: 0,
    peukertExponent: 1,
    peukertRatedW: 1,
    acceptance: whole,
    stored: whole.map(({ share }) => ({ share, value: 1 })),
    selfDischargeW: 0,
  });
  const sunW = Float64Array.from(rows, (row) => given.segments[segments.indexOf(row.segment)]?.sunW ?? Number.NaN);
  const startWh = (given.startSocPct / 100) * given.packWh;
  const book = new Float64Array(BOOK.size);
  const levelsWh = new Float64Array(columns.count);
  walkDay(columns, store, { startWh, drive: 1, other: 1, sunW }, book, { levelsWh });
  const at = (place: number) => book[place] as number;
  const pct = (wh: number) => (100 * wh) / given.packWh;
  const atHour = (hour: number) => {
    const step = Array.from(columns.fromUtcMs).findIndex(
      (from, i) => Math.round(from + (columns.hours[i] as number) * HOUR) === hour * HOUR,
    );
    return step < 0 ? startWh : (levelsWh[step] as number);
  };
  const walked = { levelsWh, startWh, lowestUtcMs: at(BOOK.lowestUtcMs) };
  const below = firstBelow(walked, columns, (given.floorSocPct / 100) * given.packWh);
  return {
    socPctByHour: Array.from({ length: 25 }, (_, hour) => pct(atHour(hour))),
    endSocPct: pct(at(BOOK.level)),
    minSocPct: pct(at(BOOK.lowest)),
    minSocAtH: at(BOOK.lowestUtcMs) / HOUR,
    belowFloorFromH: below === null ? null : below / HOUR,
    fullFromH: at(BOOK.fullUtcMs) < 0 ? null : at(BOOK.fullUtcMs) / HOUR,
    drivenKm: segments.reduce((total, segment) => total + segment.km, 0),
    driveWh: at(BOOK.drive),
    otherWh: at(BOOK.other),
    sunOfferedWh: at(BOOK.sunOffered),
    sunWastedWh: at(BOOK.sunOffered) - at(BOOK.sunTaken),
    chargerWh: at(BOOK.grid),
    gridWh: at(BOOK.grid) / given.chargerEfficiency,
    shortWh: at(BOOK.missing),
  };
}

function quantileScore(given: { levels: number[]; forecastWh: number[][]; outcomeWh: number[] }) {
  const score = scoreQuantiles(given.levels, given.forecastWh, given.outcomeWh);
  return {
    pinballWhByLevel: score?.pinballByLevel,
    pinballWh: score?.pinball,
    coverageByLevel: score?.coverageByLevel,
    insideShare: score?.insideShare,
    meanWidthWh: score?.meanWidth,
  };
}

export const served = { vehicleDaySoc, quantileScore };
