import * as z from "zod/mini";
import type { Night, Socket, Stay } from "../calc/yard/night.js";
import { bad, good, type Outcome, type Problem } from "../units/outcome.js";
import { listOf, name, num, text, utcMs, whole } from "./fields.js";
import { problemsOf } from "./read.js";

const NIGHT_FORMAT = "depot-night/1";
const MOST_KWH = 1000;

const span = () => z.object({ fromUtcMs: utcMs(), toUtcMs: utcMs() });
const spans = () => z._default(listOf(span(), 500), []);
const clockText = () => z.string().check(z.regex(/^([01]\d|2[0-3]):[0-5]\d$/));
const demand = () => ({ demandPerKw: z.optional(num(0, 1e9)), billedPeakKw: z.optional(num(0, 1e5)) });

const tariff = () =>
  z.discriminatedUnion("kind", [
    z.object({
      kind: z.literal("bands"),
      bands: listOf(z.object({ from: clockText(), to: clockText(), perKwh: num(-1e6, 1e6) }), 48),
      otherwisePerKwh: z._default(num(-1e6, 1e6), Number.NaN),
      ...demand(),
    }),
    z.object({ kind: z.literal("flatFee"), feePerCharge: num(0, 1e9), ...demand() }),
    z.object({ kind: z.literal("none"), ...demand() }),
  ]);

const socket = () => z.object({ id: name(100), limitKw: num(0, 1000), plug: text(40), timer: z.boolean() });

const stay = () =>
  z.object({
    id: name(100),
    chemistry: z.optional(text(40)),
    arriveUtcMs: utcMs(),
    departUtcMs: utcMs(),
    fullKwh: num(0, MOST_KWH),
    arriveKwh: num(0, MOST_KWH),
    needKwh: num(0, MOST_KWH),
    safeKwh: num(0, MOST_KWH),
    chargerKw: num(0, 1000),
    acceptance: listOf(z.object({ levelKwh: num(0, MOST_KWH), kw: num(0, 1000) }), 500),
    plugs: listOf(text(40), 50),
    roundWeight: z._default(num(0, 1e6), 1),
    fullDue: z._default(z.boolean(), false),
    roofKw: z.optional(num(0, 100)),
  });

const session = () =>
  z.object({
    stay: name(100),
    socket: name(100),
    plugUtcMs: utcMs(),
    startUtcMs: utcMs(),
    stopUtcMs: utcMs(),
    unplugUtcMs: utcMs(),
  });

const frame = () =>
  z.object({
    id: name(200),
    title: z.optional(text(500)),
    zone: name(100),
    startUtcMs: utcMs(),
    slotMinutes: whole(1, 240),
    slotCount: whole(1, 2000),
    site: z.object({
      limitKw: num(-1e5, 1e5),
      marginKw: z._default(num(-1e5, 1e5), 0),
      baseLoadKw: listOf(num(-1e5, 1e5), 2000),
      cuts: spans(),
    }),
    staff: z.object({
      awake: spans(),
      wakeUtcMs: z._default(listOf(utcMs(), 500), []),
      wakeWeightSwaps: z._default(num(0, 1e4), 3),
    }),
    tariff: tariff(),
    sockets: listOf(z.unknown(), 5000),
    stays: listOf(z.unknown(), 10_000),
    sunKwPerKw: z.optional(listOf(num(0, 10), 2000)),
    published: z.optional(z.object({ nowUtcMs: utcMs(), sessions: listOf(session(), 10_000) })),
  });

/** A night out of a file, and the parts of it that could not be read and were left out. */
export interface NightFile {
  readonly night: Night;
  readonly problems: readonly Problem[];
}

/** Reads a night (format depot-night/1). A broken socket or stay is left out and named; a broken frame refuses the file. */
export function readNightFile(raw: unknown): Outcome<NightFile> {
  if (typeof raw !== "object" || raw === null || (raw as { format?: unknown }).format !== NIGHT_FORMAT)
    return bad({ code: "notANight", where: "format" });
  const seen = frame().safeParse(raw, { reportInput: true });
  if (!seen.success) return bad(...problemsOf(seen.error));
  const { sockets, stays, site, ...rest } = seen.data;
  if (site.baseLoadKw.length !== rest.slotCount) {
    const figures = { found: site.baseLoadKw.length, wanted: rest.slotCount };
    return bad({ code: "wrongLength", where: "site.baseLoadKw", figures });
  }
  const places = readEach<Socket>(sockets, "sockets", socket());
  const visits = readEach<Stay>(stays, "stays", stay());
  const seenIds = new Set<string>();
  const repeats = places.values.flatMap(({ id }, n): Problem[] => {
    if (!seenIds.has(id)) {
      seenIds.add(id);
      return [];
    }
    return [{ code: "socketRepeats", where: `sockets.${n}`, figures: { id } }];
  });
  const unique = places.values.filter(({ id }, n) => places.values.findIndex((other) => other.id === id) === n);
  const night = { ...rest, site, sockets: unique, stays: visits.values } as Night;
  return good({ night, problems: [...places.problems, ...repeats, ...visits.problems] });
}

function readEach<T>(list: readonly unknown[], where: string, schema: z.ZodMiniType) {
  const values: T[] = [];
  const problems: Problem[] = [];
  for (const [n, item] of list.entries()) {
    const seen = schema.safeParse(item, { reportInput: true });
    if (seen.success) values.push(seen.data as T);
    else problems.push(...problemsOf(seen.error).map((one) => ({ ...one, where: `${where}.${n}.${one.where}` })));
  }
  return { values, problems };
}
