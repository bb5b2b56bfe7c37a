import * as z from "zod/mini";
import { date, id, lazily, listOf, num, share, text, utcMs, whole } from "./fields.js";
import { kind, type RecordOf } from "./kind.js";

/** What was learned, packed as text (map/learn-pack.ts says how): a few hundred figures that nobody reads one by one. */
const packed = () => z.nullable(text(12_000));

/** How good the kept forecasts of the last weeks were, as sums that add up over vehicles. Levels are shares of a full set. */
const scoreSums = () =>
  z.strictObject({
    days: whole(0, 10_000),
    /** Days that a band held: 10 to 90 of 100, and 5 to 95. */
    inside80: whole(0, 10_000),
    inside90: whole(0, 10_000),
    /** Summed pinball loss over five quantiles, and summed distance of the likely level from the lived one. */
    pinball: num(0, 10_000),
    off: num(0, 10_000),
    offKm: num(0, 1e7),
    /** Home below the line and not said, and said and not so. */
    missedShort: whole(0, 10_000),
    falseAlarms: whole(0, 10_000),
  });

/**
 * What one vehicle's days taught. `on` and `sinceDate` are the person's: whether answers use it, and from which day on days count. All else can
 * be worked out again from the log: `settled` up to a midnight that is over, `state` up to now.
 */
export const learnedKind = kind({
  name: "learned",
  list: "vehiclesLearned",
  version: 1,
  recomputable: true,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      vehicleId: id(),
      on: z.boolean(),
      sinceDate: z.nullable(date()),
      settled: packed(),
      state: packed(),
      /** On the plug since then, and not looked at after. */
      pluggedUtcMs: z.nullable(utcMs()),
      score: z.nullable(scoreSums()),
    }),
  ),
});
export type Learned = RecordOf<typeof learnedKind>;
export type ScoreSums = NonNullable<Learned["score"]>;

/** What was learned of the sky of a yard's place; can be worked out again. */
export const placeLearnedKind = kind({
  name: "placeLearned",
  list: "placesLearned",
  version: 1,
  recomputable: true,
  climb: {},
  schema: lazily(() =>
    z.strictObject({ id: id(), v: z.literal(1), yardId: id(), settled: packed(), state: packed(), atUtcMs: utcMs() }),
  ),
});
export type PlaceLearned = RecordOf<typeof placeLearnedKind>;

/** Quantiles 5, 10, 50, 90 and 95 of a level, as shares of a full set. */
const five = () => listOf(num(-5, 5), 5, 5);

const said = () =>
  z.nullable(
    z.strictObject({
      madeUtcMs: utcMs(),
      /** Days that the vehicle had learned from. */
      days: whole(0, 10_000),
      verdict: z.enum(["enough", "tight", "short", "notKnown"]),
      chance: share(),
      reserveShare: share(),
      home: five(),
      lowest: five(),
      /** Km that a full set is worth, to say shares as km. */
      kmPerSet: num(0, 10_000),
    }),
  );

/** What was forecast for a day of a vehicle: last on the evening before, and first on the day itself. Scored when the day is written in. */
export const forecastKind = kind({
  name: "forecast",
  list: "forecasts",
  version: 1,
  history: { of: "vehicleId", on: "date" },
  recomputable: true,
  climb: {},
  schema: lazily(() =>
    z.strictObject({ id: id(), v: z.literal(1), vehicleId: id(), date: date(), evening: said(), first: said() }),
  ),
});
export type Forecast = RecordOf<typeof forecastKind>;
export type Said = NonNullable<Forecast["evening"]>;

/** Care of a set that was done. */
export const careKind = kind({
  name: "care",
  list: "cares",
  version: 1,
  history: { of: "vehicleId", on: "date" },
  climb: {},
  schema: lazily(() =>
    z.strictObject({ id: id(), v: z.literal(1), vehicleId: id(), date: date(), what: z.enum(["water", "equalise"]) }),
  ),
});
export type CareDone = RecordOf<typeof careKind>;
