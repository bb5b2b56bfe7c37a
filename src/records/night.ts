import * as z from "zod/mini";
import { date, id, lazily, listOf, num, utcMs, whole } from "./fields.js";
import { kind, type RecordOf } from "./kind.js";

/** One visit of a vehicle on one socket: the four moments that people and timers keep to. */
const session = () =>
  z.strictObject({
    /** The visit: the vehicle's id, with its number where it comes home more than once. */
    stayId: id(),
    vehicleId: id(),
    socketId: id(),
    plugUtcMs: utcMs(),
    startUtcMs: utcMs(),
    stopUtcMs: utcMs(),
    unplugUtcMs: utcMs(),
    /** Level on leaving that this slot was worked out to give, share of a full set. */
    toShare: num(0, 1),
  });

/** What turned out otherwise than planned. */
const event = () =>
  z.discriminatedUnion("kind", [
    z.strictObject({ kind: z.literal("cameLate"), atUtcMs: utcMs(), vehicleId: id(), untilUtcMs: utcMs() }),
    z.strictObject({ kind: z.literal("chargerDead"), atUtcMs: utcMs(), vehicleId: id() }),
    z.strictObject({ kind: z.literal("socketDead"), atUtcMs: utcMs(), socketId: id() }),
    z.strictObject({ kind: z.literal("supplyLost"), atUtcMs: utcMs(), fromUtcMs: utcMs(), toUtcMs: utcMs() }),
  ]);

/** The plug-in plan of one night as people follow it: slots, the strokes of chalk, and what turned out otherwise. */
export const nightKind = kind({
  name: "night",
  list: "nights",
  version: 1,
  history: { of: "yardId", on: "date" },
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      yardId: id(),
      /** Day on whose evening the night begins. */
      date: date(),
      /** Counts the plans of one night; calendars tell the newer by it. */
      plan: whole(0, 10_000),
      madeUtcMs: utcMs(),
      sessions: listOf(session(), 4000),
      /** Vehicles that leave below what their round needs. */
      shortIds: listOf(id(), 4000),
      done: listOf(z.strictObject({ stayId: id(), what: z.enum(["pluggedIn", "unplugged"]), atUtcMs: utcMs() }), 8000),
      events: listOf(event(), 500),
    }),
  ),
});
export type NightRecord = RecordOf<typeof nightKind>;
export type NightSession = NightRecord["sessions"][number];
export type NightEvent = NightRecord["events"][number];
