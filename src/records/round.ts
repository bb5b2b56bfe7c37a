import * as z from "zod/mini";
import { id, lazily, listOf, name, num, text } from "./fields.js";
import { kind, type RecordOf } from "./kind.js";

const headingDeg = () => z.nullable(num(0, 360));
const minutes = () => num(0, 2880);

const leg = () =>
  z.strictObject({
    kind: z.literal("leg"),
    name: z.exactOptional(text()),
    km: num(0, 300),
    minutes: minutes(),
    climbM: num(0, 5000),
    dropM: num(0, 5000),
    surface: z.enum(["asphalt", "wornAsphalt", "gravel", "earth", "sand"]),
    surroundings: z.enum(["openRoad", "suburb", "town", "narrow"]),
    stopsPerKm: num(0, 30),
    headingDeg: headingDeg(),
  });

const stop = () =>
  z.strictObject({
    kind: z.literal("stop"),
    name: name(),
    minutes: minutes(),
    shade: z.enum(["open", "part", "deep", "roofed"]),
    /** Way the vehicle points while parked; null when it differs from day to day. */
    sideDeg: headingDeg(),
    /** Put on (+) or taken off (-) here. */
    payloadChangeKg: num(-2000, 2000),
    lampOn: z.exactOptional(z.boolean()),
    fridgeOn: z.exactOptional(z.boolean()),
    grinderOn: z.exactOptional(z.boolean()),
    fanOn: z.exactOptional(z.boolean()),
    /** Power of a socket that may be used here, null when there is none. */
    socketKw: z.nullable(num(0.1, 50)),
  });

/** A repeatable sequence of legs and stops, from the yard and back. */
export const roundKind = kind({
  name: "round",
  list: "rounds",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      yardId: id(),
      name: name(),
      parts: listOf(z.discriminatedUnion("kind", [leg(), stop()]), 200),
    }),
  ),
});
export type Round = RecordOf<typeof roundKind>;
export type RoundPart = Round["parts"][number];
export type LegPart = Extract<RoundPart, { readonly kind: "leg" }>;
export type StopPart = Extract<RoundPart, { readonly kind: "stop" }>;
