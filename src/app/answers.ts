import { computed, effect, signal } from "@preact/signals";
import type { DayAnswer } from "../calc/day/answer.js";
import type { Learned, PlaceLearned, Reading, Round, Shift, Sky, Socket, Vehicle, Yard } from "../records/index.js";
import type { Plug } from "../records/map/day.js";
import { dateAsked } from "../records/map/next-shift.js";
import { type CivilDate, daysBetween } from "../units/zone.js";
import { askDay } from "../work/ask-day.js";
import { type Book, book, handedOver, listed, ownedBy, vehicles, yardOf } from "./fleet.js";
import { settings } from "./settings.js";
import { nowUtcMs } from "./state.js";

/** What one vehicle's answer stands on. Two cases with the same things in them have the same answer. */
export interface Case {
  readonly yard: Yard;
  readonly vehicle: Vehicle;
  readonly rounds: readonly Round[];
  readonly shifts: readonly Shift[];
  readonly skies: readonly Sky[];
  readonly readings: readonly Reading[];
  readonly date: CivilDate;
  readonly nowUtcMs: number;
  readonly sockets?: readonly Socket[] | undefined;
  /** Slots of the night plan that is followed. */
  readonly plugs?: readonly Plug[];
  /** What its own days and its place's taught. */
  readonly learned?: Learned | undefined;
  readonly placeLearned?: PlaceLearned | undefined;
}
export interface Answered {
  readonly case: Case;
  readonly answer: DayAnswer;
}

export const answers = signal<ReadonlyMap<string, Answered>>(new Map());
/** A bug in the calculation, for the page that says so. */
export const answerBroke = signal<unknown>(null);

// Within these times the level moves less than the pictures show.
const SHOWN_FRESH_MS = 300_000;
const OTHERS_FRESH_MS = 1_800_000;
const NEAR_DAYS = 4;

/** The part of the book that one vehicle's day needs; little to send to the worker. */
export function caseOf(of: Book, vehicle: Vehicle, yard: Yard, at: number): Case {
  const shifts = ownedBy(listed(of, "shift"), "vehicleId", vehicle.id);
  const date = dateAsked({ yard, vehicle, rounds: listed(of, "round"), shifts }, at);
  const near = (day: CivilDate) => Math.abs(daysBetween(day, date)) <= NEAR_DAYS;
  const nearShifts = shifts.filter((shift) => near(shift.date));
  const used = new Set([vehicle.usual.roundId, ...nearShifts.map((shift) => shift.roundId)]);
  return {
    yard,
    vehicle,
    rounds: listed(of, "round").filter((round) => used.has(round.id)),
    shifts: nearShifts,
    skies: ownedBy(listed(of, "sky"), "yardId", yard.id).filter((sky) => near(sky.date)),
    readings: ownedBy(listed(of, "reading"), "vehicleId", vehicle.id),
    date,
    nowUtcMs: at,
    sockets: ownedBy(listed(of, "socket"), "yardId", yard.id),
    plugs: slotsOf(of, vehicle, yard, near),
    learned: ownedBy(listed(of, "learned"), "vehicleId", vehicle.id)[0],
    placeLearned: ownedBy(listed(of, "placeLearned"), "yardId", yard.id)[0],
  };
}

type PlugsOf = typeof import("../records/map/night-plugs.js").plugsOf;
/** Fetched when a night is first followed: the first screen does not pay for it. */
const plugsOf = signal<PlugsOf | null>(null);
function slotsOf(of: Book, vehicle: Vehicle, yard: Yard, near: (day: CivilDate) => boolean): readonly Plug[] {
  const nights = listed(of, "night").filter((night) => night.yardId === yard.id && near(night.date));
  if (nights.length === 0) return [];
  if (plugsOf.value) return plugsOf.value(vehicle, nights, { sockets: listed(of, "socket"), cuts: yard.cuts });
  import("../records/map/night-plugs.js").then(
    (part) => {
      plugsOf.value = part.plugsOf;
    },
    () => undefined, // no network: with the next answer, then
  );
  return [];
}

const listsSame = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((one, i) => one === b[i]);
const plugsSame = (a: readonly Plug[], b: readonly Plug[]): boolean => JSON.stringify(a) === JSON.stringify(b);
const ONES = ["yard", "vehicle", "learned", "placeLearned", "date"] as const;
const LISTS = ["rounds", "shifts", "skies", "readings", "sockets"] as const;
const sameCase = (a: Case, b: Case, freshMs: number): boolean =>
  ONES.every((one) => a[one] === b[one]) &&
  Math.abs(a.nowUtcMs - b.nowUtcMs) < freshMs &&
  LISTS.every((list) => listsSame(a[list] ?? [], b[list] ?? [])) &&
  plugsSame(a.plugs ?? [], b.plugs ?? []);

effect(() => {
  handedOver.value = settings.value.lent ? (settings.value.vehicleId ?? "") : null;
});

/** The vehicle that Today speaks of. */
export const current = computed<Vehicle | null>(() => {
  const all = vehicles.value;
  return all.find((vehicle) => vehicle.id === settings.value.vehicleId) ?? all[0] ?? null;
});

let wanted: readonly Case[] = [];
let busy = false;

/** Asks for the first answer that is not at hand; one at a time, so that a changed mind waits for one answer at most. */
function pump(): void {
  if (busy || !book.peek().reading) return; // the list stands, and what its answers need is still being read
  const next = wanted.find((asked) => !isAnswered(asked));
  if (!next) return;
  busy = true;
  askDay("answerDay", next)
    .then((answer) => {
      answers.value = new Map(answers.peek()).set(next.vehicle.id, { case: next, answer });
    })
    .catch((problem: unknown) => {
      answerBroke.value = problem;
      wanted = wanted.filter((asked) => asked !== next);
    })
    .finally(() => {
      busy = false;
      pump();
    });
}

function isAnswered(asked: Case): boolean {
  const held = answers.peek().get(asked.vehicle.id);
  return held !== undefined && sameCase(held.case, asked, asked === wanted[0] ? SHOWN_FRESH_MS : OTHERS_FRESH_MS);
}

/** Keeps the answers of all working vehicles up to date, the shown one first. */
export function keepAnswering(): void {
  effect(() => {
    const at = nowUtcMs.value;
    const first = current.value;
    const others = vehicles.value.filter((vehicle) => vehicle.status === "working" && vehicle !== first);
    wanted = (first ? [first, ...others] : others).flatMap((vehicle) => {
      const yard = yardOf(vehicle);
      return yard ? [caseOf(book.value, vehicle, yard, at)] : [];
    });
    pump();
  });
}
