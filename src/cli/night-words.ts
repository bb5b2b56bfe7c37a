import type { Night } from "../calc/yard/night.js";
import type { Problem } from "../units/outcome.js";
import { minuteOfDay } from "../units/zone.js";

/** Codes after which a part of the file is missing from the plan. */
export const LEAVES_OUT: ReadonlySet<string> = new Set([
  "stayRepeats",
  "socketRepeats",
  "departsBeforeArrival",
  "outsideNight",
  "badEnergy",
  "fullerThanFull",
  "chargerWithoutPower",
  "badAcceptance",
  "promiseUnknownSocket",
  "promiseOutOfOrder",
  "zoneUnknown",
  "missing",
  "wrongType",
  "tooSmall",
  "tooBig",
  "tooShort",
  "tooLong",
  "badForm",
  "notOneOf",
  "wrongKind",
]);

type Figures = Readonly<Record<string, number | string>>;
type Say = (figures: Figures, night: Night | null) => string;

const SENTENCES: Readonly<Record<string, Say>> = {
  notANight: () =>
    'The file is neither a night ("format": "depot-night/1") nor a fleet ("format": "noonplug-fleet"), so there is nothing to plan.',
  wrongLength: ({ found, wanted }) => `There are ${found} values here, but the night has ${wanted} slots.`,
  stayRepeats: ({ id }) => `${id} stands here a second time; this one is left out.`,
  socketRepeats: ({ id }) => `Socket ${id} stands here a second time; this one is left out.`,
  departsBeforeArrival: ({ id }) => `${id} departs before it has come; it is left out, the rest is planned.`,
  outsideNight: ({ id }) => `${id} is not in the yard for one whole slot of this night; it is left out.`,
  badEnergy: ({ id }) => `A level or need of ${id} is below 0 or no number; it is left out.`,
  fullerThanFull: ({ id }) => `${id} arrives with more than a full battery holds; it is left out.`,
  chargerWithoutPower: ({ id }) => `The charger of ${id} has no power; it is left out.`,
  badAcceptance: ({ id }) => `The acceptance of ${id} falls to 0 somewhere, so it can never be full; it is left out.`,
  acceptanceMended: ({ id }) =>
    `The acceptance of ${id} does not run from 0 to full, or bends upwards; it was lowered until it does not, and planned so.`,
  noSocketFits: ({ id, plug }) =>
    id === undefined
      ? `No socket of the yard has the plug ${plug}.`
      : `No socket of the yard fits ${id}; it cannot be charged here.`,
  socketFitsNobody: ({ id, plug }) =>
    `${id === undefined ? "This socket" : `Socket ${id}`} has the plug ${plug}, which no vehicle of the night has.`,
  baseLoadAboveLimit: ({ fromUtcMs, baseKw, roomKw, slots }, night) =>
    `From ${clock(fromUtcMs, night)} the other users of the meter take ${baseKw} kW of the ${rounded(roomKw)} kW the site may draw: nothing is charged in ${slots} slots.`,
  bandsOverlap: ({ at }) => `Two price bands hold at ${at}; the first one written counts.`,
  bandsGap: ({ at }) =>
    `No price holds at ${at}, and none is given for the rest of the day; the dearest price is used there.`,
  zoneUnknown: ({ zone, found }) => `"${zone ?? found}" is no known time zone; the price bands are read as UTC.`,
  promiseUnknownSocket: ({ id }) =>
    `The published plan names the socket ${id}, which is not in the yard; that promise cannot be kept.`,
  promiseOutOfOrder: ({ id }) => `The published times of ${id} are out of order; that promise cannot be kept.`,
  missing: () => "Something is missing here; this part is left out.",
  wrongType: ({ found }) =>
    `${found === undefined ? "What stands here" : `"${found}"`} is of the wrong kind; this part is left out.`,
};

/** One sentence with its place. */
export function sentenceOf({ code, where, figures = {} }: Problem, night: Night | null): string {
  const say = SENTENCES[code];
  const detail = Object.entries(figures).map(([name, value]) => `${name} ${value}`);
  const words = say ? say(figures, night) : `This cannot be so (${[code, ...detail].join(", ")}).`;
  return `${where === "" ? "the file" : where}: ${words}`;
}

const rounded = (value: number | string | undefined): number => Math.round(Number(value) * 100) / 100;

function clock(utcMs: number | string | undefined, night: Night | null): string {
  const minutes = Math.round(minuteOfDay(Number(utcMs), night?.zone ?? "UTC"));
  const [hour, minute] = [Math.floor(minutes / 60) % 24, minutes % 60];
  return Number.isFinite(minutes) ? `${String(hour).padStart(2, "0")}:${String(minute).padStart(2, "0")}` : "then";
}
