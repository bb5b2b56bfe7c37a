import * as z from "zod/mini";
import { minuteOfClock } from "./clock.js";
import { clock, date, id, lazily, listOf, minor, num, text, utcMs, whole } from "./fields.js";
import { kind, type Old, type RecordOf } from "./kind.js";
import { loadClass } from "./vehicle.js";
import { haze } from "./yard.js";

/** Version 0, the draft, wrote the time of leaving as a clock text. */
const shiftFrom0 = ({ leave, ...old }: Old): Old => ({
  ...old,
  v: 1,
  leaveMinute: typeof leave === "string" ? minuteOfClock(leave) : old.leaveMinute,
});

/** A vehicle on a round on a day. `loadKg` counts where typed, else the class. Minutes may pass midnight of `date`. */
export const shiftKind = kind({
  name: "shift",
  list: "shifts",
  version: 1,
  history: { of: "vehicleId", on: "date" },
  climb: { 0: shiftFrom0 },
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      vehicleId: id(),
      roundId: id(),
      date: date(),
      leaveMinute: whole(0, 2879),
      loadKg: z.nullable(num(0, 3000)),
      loadClass: loadClass(),
      driver: z.nullable(text()),
    }),
  ),
});
export type Shift = RecordOf<typeof shiftKind>;

const look = () => z.enum(["bright", "mixed", "dark"]);
const cover = () =>
  z.discriminatedUnion("kind", [
    z.strictObject({ kind: z.literal("three"), value: look() }),
    /** Morning, midday, afternoon. */
    z.strictObject({ kind: z.literal("parts"), values: listOf(look(), 3, 3) }),
    /** Cover in eighths for each hour of the yard's clock, and whether it is thin high cloud. */
    z.strictObject({ kind: z.literal("hours"), oktas: listOf(num(0, 8), 24, 24), thin: listOf(z.boolean(), 24, 24) }),
  ]);

/** Cloud, haze, temperature and wind of a yard's day, seen or expected; null = not said. */
export const skyKind = kind({
  name: "sky",
  list: "skies",
  version: 1,
  history: { of: "yardId", on: "date" },
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      yardId: id(),
      date: date(),
      /** Null where only wind, wet roads or temperatures were said. */
      cover: z.nullable(cover()),
      airMinC: z.nullable(num(-60, 60)),
      airMaxC: z.nullable(num(-60, 60)),
      windMs: z.nullable(num(0, 60)),
      wet: z.boolean(),
      haze: z.nullable(haze()),
    }),
  ),
});
export type Sky = RecordOf<typeof skyKind>;

const gaugeKind = () => z.enum(["percent", "bars", "volts", "full"]);
/** Percent 0..100, number of bars, or volts; with `full` the value does not count. */
const gaugeValue = () => num(0, 200);

/** What a person saw on the gauge or voltmeter. `perBlock`: volts of one block, not of the set; null leaves it to the figure. */
export const readingKind = kind({
  name: "reading",
  list: "readings",
  version: 1,
  history: { of: "vehicleId", on: "atUtcMs" },
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      vehicleId: id(),
      atUtcMs: utcMs(),
      kind: gaugeKind(),
      value: gaugeValue(),
      /** Minutes since driving or charging ended; null when not said. */
      restedMin: z.nullable(num(0, 10_000)),
      perBlock: z.nullable(z.boolean()),
    }),
  ),
});
export type Reading = RecordOf<typeof readingKind>;

const entryField = () => z.union([num(-1e13, 1e13), z.string().check(z.maxLength(200)), z.boolean(), z.null()]);

/** A day written in afterwards; null = not written. A correction keeps what stood there before in `formerly`. */
export const entryKind = kind({
  name: "entry",
  list: "entries",
  version: 1,
  history: { of: "vehicleId", on: "date" },
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      vehicleId: id(),
      date: date(),
      km: z.nullable(num(0, 1000)),
      trips: z.nullable(whole(0, 500)),
      odometerKm: z.nullable(num(0, 5_000_000)),
      /** Level on coming home, as the gauge showed it. */
      level: z.nullable(z.strictObject({ kind: gaugeKind(), value: gaugeValue(), perBlock: z.nullable(z.boolean()) })),
      loadClass: z.nullable(loadClass()),
      /** Time of plugging in on the yard's clock. */
      pluggedAt: z.nullable(clock()),
      gridKwh: z.nullable(num(0, 500)),
      sunKwh: z.nullable(num(0, 100)),
      paidMinor: z.nullable(minor()),
      wet: z.nullable(z.boolean()),
      driver: z.nullable(text()),
      formerly: listOf(z.strictObject({ atUtcMs: utcMs(), field: text(30), value: entryField() }), 200),
    }),
  ),
});
export type Entry = RecordOf<typeof entryKind>;
