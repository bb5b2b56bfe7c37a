import { expect, test } from "vitest";
import { planDay } from "../../../src/calc/day/plan-day.js";
import type { Round, Vehicle, Yard } from "../../../src/records/index.js";
import { type DayCase, dayInputOf } from "../../../src/records/map/day.js";
import { dateAsked } from "../../../src/records/map/next-shift.js";
import { utcMsAt } from "../../../src/units/zone.js";
import { examples } from "../../records/examples.js";

const yard = examples.yard as unknown as Yard;
const vehicle = examples.vehicle as unknown as Vehicle;
const round = examples.round as unknown as Round;
const date = "2027-02-10";
const evening = utcMsAt("2027-02-09", 19 * 60, yard.zone);

const longRound = (times: number): Round => ({
  ...round,
  parts: Array.from({ length: times }, () => round.parts).flat(),
});
const percent = (value: number, atUtcMs = evening) => ({
  id: "read",
  v: 1 as const,
  vehicleId: vehicle.id,
  atUtcMs,
  kind: "percent" as const,
  value,
  restedMin: 60,
  perBlock: false,
});
const sky = (value: "bright" | "mixed" | "dark") => ({
  id: "s",
  v: 1 as const,
  yardId: yard.id,
  date,
  cover: { kind: "three" as const, value },
  airMinC: null,
  airMaxC: null,
  windMs: null,
  wet: false,
  haze: null,
});
const asked = (more: Partial<DayCase> = {}): DayCase => ({
  yard,
  vehicle,
  rounds: [longRound(4)],
  shifts: [],
  skies: [sky("mixed")],
  readings: [percent(80)],
  date,
  nowUtcMs: evening,
  ...more,
});
const answer = (more: Partial<DayCase> = {}) => planDay(dayInputOf(asked(more)));

test("the book of the day closes and the lines are in order", () => {
  const { book, lines } = answer();
  const into = book.startWh + book.gridWh + book.sunTakenWh + book.missingWh;
  const out = book.driveWh + book.otherWh + book.lossWh + book.endWh;
  expect(Math.abs(into - out)).toBeLessThan(1e-6);
  expect(book.sunOfferedWh).toBeCloseTo(book.sunTakenWh + book.sunSpilledWh, 9);
  lines.atUtcMs.forEach((_, i) => {
    const rising = [lines.p05, lines.p10, lines.p50, lines.p90, lines.p95].map((line) => line[i] as number);
    expect([...rising].sort((a, b) => a - b)).toEqual(rising);
  });
});

test("the verdict follows the lowest point against the reserve", () => {
  expect(answer({ readings: [percent(100)], rounds: [longRound(2)] }).verdict).toBe("enough");
  expect(answer({ readings: [percent(35)] }).verdict).toBe("short");
  const unknown = answer({ readings: [] });
  expect(unknown.verdict).toBe("notKnown");
  expect(unknown.missing).toEqual(["reading"]);
  expect(answer({ rounds: [] }).missing).toEqual(["round"]);
  for (let value = 30; value <= 100; value += 5) {
    const { verdict, lowest, chance, reserveShare } = answer({ readings: [percent(value)] });
    if (verdict === "enough") expect(chance).toBeGreaterThanOrEqual(0.9);
    if (verdict === "tight") expect(lowest.p50).toBeGreaterThanOrEqual(reserveShare);
    if (verdict === "short") expect(lowest.p50).toBeLessThan(reserveShare);
  }
});

test("the top-up is the least that makes the shift enough", () => {
  const short = answer({ readings: [percent(40)] });
  expect(short.topUp.code).toBe("needed");
  const filled = (share: number) => answer({ readings: [percent(40 + 100 * share)] });
  const missing = short.topUp.toShare - short.start.p50;
  expect(filled(missing + 0.02).verdict).toBe("enough");
  expect(filled(missing - 0.02).verdict).not.toBe("enough");
  expect(short.topUp.latestPlugInUtcMs).toBeLessThan(short.leaveUtcMs ?? 0);
});

test("a reading from before the last round is no answer for tomorrow", () => {
  const beforeToday = utcMsAt("2027-02-09", 4 * 60, yard.zone);
  expect(answer({ readings: [percent(90, beforeToday)] }).missing).toEqual(["reading"]);
});

test("the same question gives the same answer; load lowers it, a brighter sky lifts it", () => {
  expect(answer()).toEqual(answer());
  const low = (more: Partial<DayCase>) => answer(more).lowest.p50;
  const empty: Vehicle = { ...vehicle, usual: { ...vehicle.usual, loadClass: "empty" } };
  expect(low({ vehicle: empty })).toBeGreaterThan(low({}));
  expect(low({ skies: [sky("bright")] })).toBeGreaterThan(low({ skies: [sky("dark")] }));
});

test("a slot in the night charges, and the book shows its units", () => {
  const fromUtcMs = utcMsAt(date, 60, yard.zone);
  const plugs = [{ fromUtcMs, toUtcMs: fromUtcMs + 2 * 3_600_000, chargerW: 1000 }];
  const charged = answer({ readings: [percent(70)], plugs });
  expect(charged.book.gridWh).toBeCloseTo(2000, 6);
  expect(charged.lowest.p50).toBeGreaterThan(answer({ readings: [percent(70)] }).lowest.p50 + 0.2);
});

test("a long descent with recovery charges the set, and the book still closes", () => {
  const down: Round = {
    ...round,
    parts: [
      {
        kind: "leg",
        km: 6,
        minutes: 20,
        climbM: 0,
        dropM: 500,
        surface: "asphalt",
        surroundings: "openRoad",
        stopsPerKm: 0,
        headingDeg: null,
      },
    ],
  };
  const kit = (regenShare: number): Vehicle => ({ ...vehicle, drive: { ...vehicle.drive, regenShare } });
  const [without, with_] = [0, 0.5].map((share) => answer({ vehicle: kit(share), rounds: [down] }));
  if (!without || !with_) throw new Error("two answers");
  expect(with_.home.p50).toBeGreaterThan(without.home.p50);
  expect(with_.book.driveWh).toBeLessThan(0);
  const { book } = with_;
  const into = book.startWh + book.gridWh + book.sunTakenWh + book.missingWh;
  expect(Math.abs(into - book.driveWh - book.otherWh - book.lossWh - book.endWh)).toBeLessThan(1e-6);
});

test("two shifts of one day run one after the other, the second not before the first is home", () => {
  const shift = (n: number, leaveMinute: number) => ({
    id: `${vehicle.id}/${date}/${n}`,
    v: 1 as const,
    vehicleId: vehicle.id,
    roundId: round.id,
    date,
    leaveMinute,
    loadKg: null,
    loadClass: "half" as const,
    driver: null,
  });
  const once = answer({ rounds: [round], shifts: [shift(1, 360)] });
  const twice = answer({ rounds: [round], shifts: [shift(2, 840), shift(1, 360)] });
  expect(twice.km).toBeCloseTo(2 * once.km, 9);
  expect(twice.leaveUtcMs).toBe(once.leaveUtcMs);
  expect(twice.homeUtcMs).toBeGreaterThan(utcMsAt(date, 840, yard.zone));
  const squeezed = answer({ rounds: [round], shifts: [shift(1, 360), shift(2, 370)] });
  expect(squeezed.km).toBeCloseTo(2 * once.km, 9);
  const drives = squeezed.segments.filter(({ kind }) => kind === "drive");
  drives.slice(1).forEach((leg, i) => {
    expect(leg.fromUtcMs).toBeGreaterThanOrEqual(drives[i]?.toUtcMs ?? 0);
  });
});

test("the line is never below where the vehicle stops: a cold night moves it, and the verdict with it", () => {
  const cold: Yard = {
    ...yard,
    airMinCByMonth: yard.airMinCByMonth.map(() => -12),
    airMaxCByMonth: yard.airMaxCByMonth.map(() => -8),
  };
  const frozen = answer({ yard: cold, readings: [percent(80)] });
  expect(frozen.floorShare).toBeGreaterThan(vehicle.battery.reserveShare);
  expect(frozen.reserveShare).toBe(frozen.floorShare);
  expect(frozen.topUp).toMatchObject({ code: "cannotCharge", gridKwh: 0, latestPlugInUtcMs: null });
  const stiff: Vehicle = { ...vehicle, battery: { ...vehicle.battery, floorShare: 0.9 } };
  expect(answer({ vehicle: stiff }).verdict).toBe("short");
});

test("a shift over midnight is still the day asked about while it runs", () => {
  const night: Vehicle = { ...vehicle, usual: { ...vehicle.usual, leaveMinute: 1400 } };
  const rounds = [longRound(4)];
  const asks = (minute: number, on = "2027-02-10") =>
    dateAsked({ yard, vehicle: night, rounds, shifts: [] }, utcMsAt(on, minute, yard.zone));
  expect(asks(1430)).toBe("2027-02-10");
  expect(asks(60, "2027-02-11")).toBe("2027-02-10");
  expect(asks(720, "2027-02-11")).toBe("2027-02-11");
});

test("a leg of a round cut in two changes nothing beyond 0.1 %, also where its motor gets hot", () => {
  const parts = longRound(3).parts.map((part) =>
    part.kind === "leg" ? { ...part, climbM: 45 * part.km, minutes: 2.2 * part.km } : part,
  );
  const cut = parts.flatMap((part): Round["parts"][number][] => {
    if (part.kind !== "leg") return [part];
    const share = (of: number) => ({
      ...part,
      km: part.km * of,
      minutes: part.minutes * of,
      climbM: part.climbM * of,
      dropM: part.dropM * of,
    });
    return [share(0.3), share(0.7)];
  });
  const whole = answer({ rounds: [{ ...round, parts }] });
  const pieces = answer({ rounds: [{ ...round, parts: cut }] });
  expect(whole.legNotes.map((note) => note.problem)).toContain("hot30min");
  for (const q of ["p10", "p50", "p90"] as const)
    expect(Math.abs(pieces.lowest[q] - whole.lowest[q])).toBeLessThan(1e-3);
  expect(Math.abs(pieces.lateMinutes - whole.lateMinutes)).toBeLessThan(1e-3 * whole.lateMinutes + 0.01);
});

test("above 2,000 m, where the clear sky reads 5 to 9 % high, the sun is held to be less sure", () => {
  const doubt = (altitudeM: number) => dayInputOf(asked({ yard: { ...yard, altitudeM } })).doubt.roofSdLog;
  expect(doubt(1999)).toBe(doubt(0));
  expect(doubt(2335) ** 2 - doubt(0) ** 2).toBeCloseTo(0.07 ** 2, 9);
});
