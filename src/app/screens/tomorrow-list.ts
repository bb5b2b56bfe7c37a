import type { Vehicle } from "../../records/index.js";
import type { Answered } from "../answers.js";
import type { TodayModel } from "./today-model.js";
import { todayModelOf } from "./today-of.js";

export type ListState = "short" | "tight" | "notKnown" | "enough" | "off";
export const LIST_STATES: readonly ListState[] = ["short", "tight", "notKnown", "enough"];

/** A vehicle in the list of the yard's next day. `model` is null while it is being worked out. */
export interface Listed {
  readonly vehicle: Vehicle;
  readonly state: ListState | "working";
  readonly model: TodayModel | null;
}

const ORDER: Record<Listed["state"], number> = { short: 0, tight: 1, notKnown: 2, working: 3, enough: 4, off: 5 };

/** km as the list sorts by them: the more is missing, the earlier. */
const spare = ({ model }: Listed): number => {
  const said = model?.said;
  if (said?.verdict === "short") return -said.km;
  if (said?.verdict === "tight") return -said.downKm;
  return said?.verdict === "enough" ? said.km : 0;
};

/** A row of the list does not change within this time. */
const SAME_MS = 60_000;
const models = new WeakMap<Answered, { readonly atUtcMs: number; readonly model: TodayModel }>();
/** Kept from one drawing of the list to the next: each answer that comes in draws it anew, and of a thousand only one has changed. */
function modelAt(answered: Answered, nowUtcMs: number): TodayModel {
  const held = models.get(answered);
  if (held && Math.abs(nowUtcMs - held.atUtcMs) < SAME_MS) return held.model;
  const model = todayModelOf(answered, nowUtcMs);
  models.set(answered, { atUtcMs: nowUtcMs, model });
  return model;
}

/** All vehicles, worst first. */
export function worstFirst(
  vehicles: readonly Vehicle[],
  answers: ReadonlyMap<string, Answered>,
  nowUtcMs: number,
): Listed[] {
  const listed = vehicles.map((vehicle): Listed => {
    if (vehicle.status === "offRoad") return { vehicle, state: "off", model: null };
    const answered = answers.get(vehicle.id);
    if (!answered) return { vehicle, state: "working", model: null };
    const model = modelAt(answered, nowUtcMs);
    return { vehicle, state: model.said.verdict, model };
  });
  return listed.sort((a, b) => ORDER[a.state] - ORDER[b.state] || spare(a) - spare(b));
}

export const countOf = (listed: readonly Listed[], state: ListState): number =>
  listed.filter((one) => one.state === state).length;
