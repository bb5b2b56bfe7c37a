import * as z from "zod/mini";
import { clock, id, lazily, listOf, minor, name, num, share, text, twelve, utcMs, whole } from "./fields.js";
import { kind, type RecordOf } from "./kind.js";

/** How clear cloudless air is; figures behind the classes: calc/sun. */
export const haze = () => z.enum(["cleanHighland", "country", "town", "dustSmoke"]);
export const groundClass = () => z.enum(["asphalt", "earth", "grass", "drySand", "concrete", "snow"]);
/** From-to on the yard's clock; `to` before `from` crosses midnight. */
const span = () => z.strictObject({ from: clock(), to: clock() });
const airC = () => num(-60, 60);

const tariff = () =>
  z.strictObject({
    kind: z.enum(["bands", "flatFee", "none"]),
    /** The first band that holds an hour counts. */
    bands: listOf(z.strictObject({ from: clock(), to: clock(), perKwhMinor: minor(1e7) }), 24),
    otherwisePerKwhMinor: minor(1e7),
    /** Price of one charge, however long; used by `flatFee`. */
    feeMinor: minor(1e9),
    /** Price of a kW of the month's highest demand, and the highest already on this month's bill. */
    demandPerKwMinor: minor(1e9),
    billedPeakKw: num(0, 2000),
  });

/** The depot: its place and usual weather, its supply and prices, and who is awake when. Loads are per hour of the yard's clock. */
export const yardKind = kind({
  name: "yard",
  list: "yards",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      name: name(),
      latDeg: num(-90, 90),
      lonDeg: num(-180, 180),
      altitudeM: num(-450, 6000),
      zone: name(60),
      groundClass: groundClass(),
      /** How the vehicles stand at the yard by day. */
      parkShade: z.enum(["open", "part", "deep", "roofed"]),
      hazeByMonth: twelve(haze()),
      /** Shares of bright, mixed and dark days, adding to 1; null when nobody knows. */
      usualSkyByMonth: z.nullable(twelve(z.strictObject({ bright: share(), mixed: share(), dark: share() }))),
      airMinCByMonth: twelve(airC()),
      airMaxCByMonth: twelve(airC()),
      currency: z.string().check(z.regex(/^[A-Z]{3}$/)),
      siteLimitKw: z.nullable(num(0.1, 2000)),
      marginKw: num(0, 500),
      baseLoadKwByHour: listOf(num(0, 2000), 24, 24),
      tariff: tariff(),
      staff: z.strictObject({
        awake: listOf(span(), 12),
        /** Moments at which somebody can be woken. */
        wake: listOf(clock(), 12),
        /** What sparing one swap, or one waking, is worth to the yard. */
        swapWorthMinor: minor(1e7),
        wakeWorthMinor: minor(1e7),
      }),
      cuts: listOf(z.strictObject({ fromUtcMs: utcMs(), toUtcMs: utcMs() }), 100),
      grid: z.nullable(
        z.strictObject({ co2KgPerKwh: num(0, 3), country: text(), year: whole(1990, 2100), source: text(200) }),
      ),
      /** Paths of fields nobody typed, as `altitudeM`. */
      guesses: listOf(name(60), 200),
    }),
  ),
});
export type Yard = RecordOf<typeof yardKind>;

export const plug = () => name(30);
/** A place to plug in, with the most it gives; `timer` means that it starts by itself at a set time. */
export const socketKind = kind({
  name: "socket",
  list: "sockets",
  version: 1,
  climb: {},
  schema: lazily(() =>
    z.strictObject({
      id: id(),
      v: z.literal(1),
      yardId: id(),
      name: name(),
      limitKw: num(0.1, 50),
      plug: plug(),
      timer: z.boolean(),
      breakerA: z.exactOptional(num(1, 400)),
    }),
  ),
});
export type Socket = RecordOf<typeof socketKind>;
