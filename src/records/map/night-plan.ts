import type { Plan } from "../../calc/yard/night.js";
import type { WalkedPlan } from "../../calc/yard/walk-plan.js";
import { nightId } from "../ids.js";
import type { NightRecord } from "../index.js";
import type { NightLayout, StayAbout } from "./night.js";

/** Share of a full set at a level in units on the meter. */
export function shareAtKwh(about: StayAbout, kwh: number): number {
  const steps = about.shareByKwh;
  const place = Math.max(0, Math.min(1, kwh / about.fullKwh)) * (steps.length - 1);
  const below = Math.min(steps.length - 2, Math.floor(place));
  const from = steps[below] ?? 0;
  return from + ((steps[below + 1] ?? from) - from) * (place - below);
}

/** A plan as the record people follow; strokes and events of the one before it stay. */
export function nightRecordOf(
  layout: NightLayout,
  plan: Plan,
  given: {
    readonly walked: WalkedPlan;
    readonly yardId: string;
    readonly nowUtcMs: number;
    readonly before: NightRecord | null;
  },
): NightRecord {
  const { walked, yardId, nowUtcMs, before } = given;
  const about = new Map(layout.about.map((one) => [one.stayId, one]));
  const outcomes = new Map(walked.outcomes.map((one) => [one.stay.id, one]));
  return {
    id: nightId(yardId, layout.date),
    v: 1,
    yardId,
    date: layout.date,
    plan: (before?.plan ?? 0) + 1,
    madeUtcMs: nowUtcMs,
    sessions: plan.sessions.flatMap((session) => {
      const of = about.get(session.stay);
      const outcome = outcomes.get(session.stay);
      if (!of || !outcome) return [];
      const { plugUtcMs, startUtcMs, stopUtcMs, unplugUtcMs } = session;
      const toShare = shareAtKwh(of, outcome.departKwh);
      return [
        {
          stayId: session.stay,
          vehicleId: of.vehicleId,
          socketId: session.socket,
          plugUtcMs,
          startUtcMs,
          stopUtcMs,
          unplugUtcMs,
          toShare,
        },
      ];
    }),
    shortIds: [
      ...new Set(
        walked.outcomes.filter((one) => one.short).map((one) => about.get(one.stay.id)?.vehicleId ?? one.stay.id),
      ),
    ],
    done: before?.done ?? [],
    events: before?.events ?? [],
  };
}
