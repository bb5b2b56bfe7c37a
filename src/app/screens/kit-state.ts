import { signal } from "@preact/signals";
import type { SizingYear } from "../../calc/sizing/input.js";
import type { Round, Vehicle, Yard } from "../../records/index.js";
import type { KitQuestion } from "../../records/map/sizing.js";
import { withSizes } from "../../records/map/variants.js";
import type { Problem } from "../../units/outcome.js";
import { askSizing } from "../../work/sizing-call.js";
import { answerBroke, current } from "../answers.js";
import { book, listed, vehicleOf, yardOf } from "../fleet.js";

/** Years of weather drawn for one answer: enough for a poor and a good one, and bearable on a slow phone. */
const YEARS = 12;

export interface KitSubject {
  readonly vehicle: Vehicle;
  readonly yard: Yard;
  /** Null while nobody has said where the vehicle goes. */
  readonly round: Round | null;
}

/** The vehicle a kit screen speaks of, on its usual round. */
export function kitSubject(vehicleId: string | undefined): KitSubject | null {
  const vehicle = (vehicleId ? vehicleOf(vehicleId) : null) ?? current.value;
  const yard = vehicle && yardOf(vehicle);
  if (!vehicle || !yard) return null;
  const rounds = listed(book.value, "round");
  return { vehicle, yard, round: rounds.find((round) => round.id === vehicle.usual.roundId) ?? null };
}

export type KitYearState =
  | { readonly step: "none" }
  | { readonly step: "working"; readonly of: KitQuestion; readonly share: number; readonly stop: () => void }
  | { readonly step: "stopped"; readonly of: KitQuestion }
  | { readonly step: "refused"; readonly of: KitQuestion; readonly problem: Problem }
  | { readonly step: "done"; readonly of: KitQuestion; readonly year: SizingYear };

/** One year at a time; it is kept until another vehicle, or the same one changed, is asked for. */
export const kitYear = signal<KitYearState>({ step: "none" });

const sameQuestion = (a: KitQuestion, b: KitQuestion): boolean =>
  a.vehicle === b.vehicle && a.yard === b.yard && a.round === b.round && a.workDaysPerWeek === b.workDaysPerWeek;

/** Has the year of a vehicle worked out, unless it is at hand or was stopped by hand. */
export function askYear({ vehicle, yard, round }: KitSubject, again = false): void {
  if (!round) return;
  const of: KitQuestion = { vehicle, yard, round, workDaysPerWeek: 7, plugTo: "need", years: YEARS };
  const held = kitYear.peek();
  if (held.step !== "none" && sameQuestion(held.of, of) && !(again && held.step === "stopped")) return;
  if (held.step === "working") held.stop();
  const control = new AbortController();
  const stop = () => {
    control.abort();
    kitYear.value = { step: "stopped", of };
  };
  kitYear.value = { step: "working", of, share: 0, stop };
  const isMine = () => {
    const now = kitYear.peek();
    return now.step === "working" && now.of === of;
  };
  askSizing({
    input: of,
    signal: control.signal,
    onShare: (share) => {
      if (isMine()) kitYear.value = { step: "working", of, share, stop };
    },
  }).then(
    (outcome) => {
      if (!isMine()) return;
      const problem = outcome.ok ? null : (outcome.problems[0] ?? { code: "", where: "" });
      if (outcome.ok) kitYear.value = { step: "done", of, year: outcome.value };
      else if (problem) kitYear.value = { step: "refused", of, problem };
    },
    (why: unknown) => {
      if (control.signal.aborted) return;
      kitYear.value = { step: "stopped", of };
      answerBroke.value = why;
    },
  );
}

/** Sizes a person has dialled on the kit screen, by vehicle: places in the year's lists. The sheet shows the same. */
export const dialled = signal<ReadonlyMap<string, { readonly roof: number; readonly set: number }>>(new Map());
/** Places of what the vehicle has, in the lists of `sizingCaseOf`. */
export const AS_IS = { roof: 3, set: 1 } as const;

export const sizesOf = (year: SizingYear): { roofW: number[]; packWh: number[] } => ({
  roofW: [...new Set(year.cells.map((cell) => cell.roofW))],
  packWh: [...new Set(year.cells.map((cell) => cell.packWh))],
});

/** The vehicle with the sizes that are dialled, once its year is worked out: one vehicle for all that is said of the kit. */
export function dialledVehicle(vehicle: Vehicle, year: SizingYear | null): Vehicle {
  const at = dialled.value.get(vehicle.id) ?? AS_IS;
  const sizes = year && sizesOf(year);
  const [roofW, packWh] = [sizes?.roofW[at.roof], sizes?.packWh[at.set]];
  return roofW === undefined || packWh === undefined ? vehicle : withSizes(vehicle, { roofW, packWh });
}

export const cellAt = (year: SizingYear, at: { readonly roof: number; readonly set: number }) =>
  year.cells[at.roof * sizesOf(year).packWh.length + at.set];
