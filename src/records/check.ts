import type { Problem } from "../units/outcome.js";
import { isZone, offsetMinutes } from "../units/zone.js";
import { minuteOfClock } from "./clock.js";
import type { Entry, Reading, Sky } from "./day.js";
import type { AnyRecord, KindName } from "./kinds.js";
import type { Round } from "./round.js";
import type { Vehicle } from "./vehicle.js";
import type { Yard } from "./yard.js";

/**
 * What a single record says that cannot be true although each field is in its range, and what is only odd.
 * Errors keep a record out; warnings are shown beside it. `where` is the path inside the record.
 */
export interface Found {
  readonly errors: readonly Problem[];
  readonly warnings: readonly Problem[];
}

type Figures = Readonly<Record<string, number | string>>;
const when = (wrong: boolean, code: string, where: string, figures?: Figures): Problem[] =>
  wrong ? [figures ? { code, where, figures } : { code, where }] : [];

export function checkYard(yard: Yard): Found {
  const zoneKnown = isZone(yard.zone);
  const errors = [
    ...when(!zoneKnown, "zoneUnknown", "zone", { found: yard.zone }),
    ...(yard.usualSkyByMonth ?? []).flatMap((sky, month) => {
      const total = sky.bright + sky.mixed + sky.dark;
      return when(Math.abs(total - 1) > 0.01, "sharesNotOne", `usualSkyByMonth.${month}`, { total });
    }),
    ...yard.airMinCByMonth.flatMap((minC, month) => {
      const maxC = yard.airMaxCByMonth[month] ?? minC;
      return when(minC > maxC, "minAboveMax", `airMinCByMonth.${month}`, { minC, maxC });
    }),
    ...yard.cuts.flatMap((cut, n) => when(cut.toUtcMs <= cut.fromUtcMs, "endsBeforeStart", `cuts.${n}`)),
  ];
  const warnings = [
    ...when(Math.abs(yard.latDeg) > 89.5, "pole", "latDeg", { latDeg: yard.latDeg }),
    ...when(yard.latDeg === 0 && yard.lonDeg === 0, "placeZero", "latDeg"),
    ...(zoneKnown ? zoneWarnings(yard) : []),
    ...supplyWarnings(yard),
    ...tariffWarnings(yard.tariff),
  ];
  return { errors, warnings };
}

/** Clocks follow the sun within a few hours: a place further off has a wrong sign or swapped figures. */
const MOST_HOURS_OFF_SUN = 4.5;
function zoneWarnings(yard: Yard): Problem[] {
  const clockH = offsetMinutes(yard.zone, Date.UTC(2025, 0, 1)) / 60;
  const off = (((clockH - yard.lonDeg / 15 + 12) % 24) + 24) % 24;
  return when(Math.abs(off - 12) > MOST_HOURS_OFF_SUN, "zoneFarFromPlace", "lonDeg", {
    clockH,
    sunH: yard.lonDeg / 15,
  });
}

function supplyWarnings(yard: Yard): Problem[] {
  const limitKw = yard.siteLimitKw;
  if (limitKw === null) return [];
  const leftKw = limitKw - yard.marginKw;
  return [
    ...when(leftKw <= 0, "marginAboveLimit", "marginKw", { limitKw, marginKw: yard.marginKw }),
    ...yard.baseLoadKwByHour.flatMap((loadKw, hour) =>
      when(loadKw > limitKw, "baseLoadAboveLimit", `baseLoadKwByHour.${hour}`, { hour, loadKw, limitKw }),
    ),
  ];
}

/** Minutes of the day a band covers, as one or two stretches; equal ends mean the whole day. */
function stretches(band: { readonly from: string; readonly to: string }): readonly (readonly [number, number])[] {
  const from = minuteOfClock(band.from) % 1440;
  const to = minuteOfClock(band.to);
  if (to > from) return [[from, to]];
  return [
    [from, 1440],
    [0, to],
  ];
}

/** Bands that overlap (the first counts) or leave minutes to the price of the rest: allowed, but often a slip. */
function tariffWarnings(tariff: Yard["tariff"]): Problem[] {
  if (tariff.kind !== "bands") return [];
  const covered = new Uint8Array(1440);
  const overlaps = tariff.bands.flatMap((band, n) => {
    let minutes = 0;
    for (const [from, to] of stretches(band))
      for (let minute = from; minute < to; minute++) {
        if (covered[minute]) minutes++;
        covered[minute] = 1;
      }
    return when(minutes > 0, "bandsOverlap", `tariff.bands.${n}`, { minutes });
  });
  const gap = covered.reduce((total, on) => total + 1 - on, 0);
  return [...overlaps, ...when(gap > 0, "bandsLeaveGap", "tariff.bands", { minutes: gap })];
}

/** Nominal volts of one cell, lowest and highest in use. */
const CELL_V = { lfp: [3.0, 3.4], floodedLead: [1.9, 2.2], sealedLead: [1.9, 2.2] } as const;
const CELLS_OF_BLOCK = { lfp: [1, 4, 8], floodedLead: [1, 3, 6], sealedLead: [1, 3, 6] } as const;

export function checkVehicle(vehicle: Vehicle): Found {
  const { battery, drive, gauge } = vehicle;
  const errors = [
    ...when(drive.motorPeakW < drive.motorRatedW, "peakBelowRated", "drive.motorPeakW"),
    ...when(drive.cutOffV >= battery.nominalV, "cutOffAboveSet", "drive.cutOffV", {
      cutOffV: drive.cutOffV,
      nominalV: battery.nominalV,
    }),
    ...when(gauge.kind === "bars" && gauge.bars === null, "barsMissing", "gauge.bars"),
  ];
  const eachV = battery.nominalV / battery.seriesCount;
  const [lowV, highV] = CELL_V[battery.chemistry];
  const countFits = CELLS_OF_BLOCK[battery.chemistry].some((cells) => eachV / cells >= lowV && eachV / cells <= highV);
  const { legalLoadKg } = vehicle;
  const warnings = [
    ...when(!countFits, "seriesCountOdd", "battery.seriesCount", { eachV }),
    ...when(battery.floorShare > battery.reserveShare, "floorAboveReserve", "battery.floorShare"),
    ...when(legalLoadKg !== null && vehicle.fullLoadKg > legalLoadKg, "overLegalLoad", "fullLoadKg", {
      loadKg: vehicle.fullLoadKg,
      legalKg: legalLoadKg ?? 0,
    }),
    ...vehicle.roof.faces.flatMap((face, n) => stringWarnings(vehicle, face, n)),
  ];
  return { errors, warnings };
}

/** At 25 C already; the cold morning, which is worse, is worked out with the yard's temperatures (calc/roof `stringVoltage`). */
function stringWarnings(vehicle: Vehicle, face: Vehicle["roof"]["faces"][number], n: number): Problem[] {
  const mostV = vehicle.roof.controllerMaxV;
  if (mostV === null || face.openCircuitV === undefined) return [];
  const stringV = face.openCircuitV * (face.panelsInSeries ?? 1);
  return when(stringV > mostV, "stringAboveController", `roof.faces.${n}.openCircuitV`, { stringV, mostV });
}

export function checkRound(round: Round): Found {
  const legs = round.parts.filter((part) => part.kind === "leg");
  const km = legs.reduce((total, leg) => total + leg.km, 0);
  return {
    errors: [...when(legs.length === 0, "noLegs", "parts")],
    warnings: [
      ...when(legs.length > 0 && km === 0, "noWay", "parts"),
      ...round.parts.flatMap((part, n) =>
        part.kind === "leg" && part.minutes > 0
          ? when(part.km / (part.minutes / 60) > 90, "legTooFast", `parts.${n}.minutes`, {
              kmh: part.km / (part.minutes / 60),
            })
          : when(part.kind === "leg" && part.km > 0, "legTakesNoTime", `parts.${n}.minutes`),
      ),
      ...round.parts.flatMap((part, n) =>
        part.kind === "leg" && part.km > 0
          ? when((part.climbM + part.dropM) / (part.km * 1000) > 0.5, "legTooSteep", `parts.${n}.climbM`)
          : [],
      ),
    ],
  };
}

export function checkSky(sky: Sky): Found {
  const { airMinC, airMaxC } = sky;
  const wrong = airMinC !== null && airMaxC !== null && airMinC > airMaxC;
  return { errors: when(wrong, "minAboveMax", "airMinC"), warnings: [] };
}

const percentTooHigh = (at: Pick<Reading, "kind" | "value">, where: string): Problem[] =>
  when(at.kind === "percent" && at.value > 100, "percentAbove100", where, { found: at.value });

export const checkReading = (reading: Reading): Found => ({ errors: percentTooHigh(reading, "value"), warnings: [] });

export const checkEntry = (entry: Entry): Found => ({
  errors: entry.level ? percentTooHigh(entry.level, "level.value") : [],
  warnings: [],
});

type Checks = { readonly [K in KindName]?: (record: AnyRecord<K>) => Found };
const CHECKS: Checks = {
  yard: checkYard,
  vehicle: checkVehicle,
  round: checkRound,
  sky: checkSky,
  reading: checkReading,
  entry: checkEntry,
};

/** What one record says that cannot be true, and what is odd; nothing for kinds without such a rule. */
export function checkRecord<K extends KindName>(kind: K, record: AnyRecord<K>): Found {
  const check = CHECKS[kind] as ((record: AnyRecord<K>) => Found) | undefined;
  return check ? check(record) : { errors: [], warnings: [] };
}
