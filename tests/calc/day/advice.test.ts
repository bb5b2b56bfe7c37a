import { expect, test } from "vitest";
import { breakAdvice, turnBackAt } from "../../../src/calc/day/advice.js";
import { planDay } from "../../../src/calc/day/plan-day.js";
import type { Round, Vehicle, Yard } from "../../../src/records/index.js";
import { breakInputsOf, turnCaseOf } from "../../../src/records/map/advice.js";
import { type DayCase, dayInputOf } from "../../../src/records/map/day.js";
import { utcMsAt } from "../../../src/units/zone.js";
import { lighterLoads } from "../../../src/work/advice.js";
import { examples } from "../../records/examples.js";

// No published tables exist for such advice. The checks are laws: more energy never leaves less, dark and rain never carry farther,
// the turn satisfies out + home = what the charge carries, and each reason stands only where its own condition holds.
const yard = examples.yard as unknown as Yard;
const example = examples.vehicle as unknown as Vehicle;
/** Out around noon, so that there is sun to wait in. */
const vehicle: Vehicle = { ...example, usual: { ...example.usual, leaveMinute: 10 * 60 } };
const round = examples.round as unknown as Round;
const date = "2027-02-10";
const at = (hour: number) => utcMsAt(date, hour * 60, yard.zone);

const longRound = (times: number): Round => ({
  ...round,
  parts: Array.from({ length: times }, () => round.parts).flat(),
});
const reading = (value: number, hour: number) => ({
  id: "read",
  v: 1 as const,
  vehicleId: vehicle.id,
  atUtcMs: at(hour),
  kind: "percent" as const,
  value,
  restedMin: 60,
  perBlock: false,
});
const sky = (more: { value?: "bright" | "mixed" | "dark"; wet?: boolean; airC?: number } = {}) => ({
  id: "s",
  v: 1 as const,
  yardId: yard.id,
  date,
  cover: { kind: "three" as const, value: more.value ?? "bright" },
  airMinC: more.airC ?? null,
  airMaxC: more.airC ?? null,
  windMs: null,
  wet: more.wet ?? false,
  haze: null,
});
const dayAt = (percent: number, hour: number, more: Partial<DayCase> = {}): DayCase => ({
  yard,
  vehicle,
  rounds: [longRound(4)],
  shifts: [],
  skies: [sky()],
  readings: [reading(percent, hour)],
  date,
  nowUtcMs: at(hour),
  draws: 64,
  ...more,
});
const leaveH = vehicle.usual.leaveMinute / 60;
const advised = (percent: number, more: Partial<DayCase> = {}) => {
  const inputs = breakInputsOf(dayAt(percent, leaveH + 0.5, more), { minutes: 60, socketKw: 2 });
  if (!inputs) throw new Error("no round");
  return breakAdvice(inputs);
};
const turn = (given: DayCase, outKm = 0) => {
  const found = turnCaseOf(given, outKm);
  if (!found) throw new Error("no round");
  return turnBackAt(found.inputTo, outKm, 150);
};

test("a plug never leaves less than the sun alone, and the low guess never more than the likely one", () => {
  for (const percent of [25, 40, 60, 80]) {
    const { plug, wait, go } = advised(percent).choices;
    expect(plug.likelyKm).toBeGreaterThanOrEqual(wait.likelyKm - 1e-9);
    for (const end of [plug, wait, go]) expect(end.lowKm).toBeLessThanOrEqual(end.likelyKm);
  }
});

test("every reason stands only where its own condition holds", () => {
  const seen = new Set<string>();
  for (let percent = 20; percent <= 100; percent += 4) {
    const { best, reason, choices } = advised(percent);
    seen.add(reason);
    expect(best === "go" && reason === "nothingNeeded").toBe(choices.go.verdict === "enough");
    if (reason === "sunIsEnough") expect([best, choices.wait.verdict]).toEqual(["wait", "enough"]);
    if (reason === "plugNeeded") expect([best, choices.plug.verdict]).toEqual(["plug", "enough"]);
    if (reason === "notEnough") expect(choices[best].verdict).not.toBe("enough");
  }
  expect(seen).toContain("nothingNeeded");
  expect([...seen].some((reason) => reason === "plugNeeded" || reason === "notEnough")).toBe(true);
});

test("lithium below freezing is not sent to a plug; a set above its maker's limit neither", () => {
  const lfp = { ...vehicle, battery: { ...vehicle.battery, chemistry: "lfp" as const } };
  expect(advised(22, { vehicle: lfp, skies: [sky({ airC: -8 })] })).toMatchObject({ best: "go", reason: "tooCold" });
  expect(advised(22, { vehicle: lfp, skies: [sky({ airC: 58 })] })).toMatchObject({ best: "go", reason: "tooHot" });
});

test("low and mild stands in the sun, nearly full or hot in the shade", () => {
  expect(advised(40, { skies: [sky({ airC: 24 })] }).stand).toBe("sun");
  expect(advised(100, { skies: [sky({ airC: 24 })], rounds: [round] }).stand).toBe("shade");
  expect(advised(85, { skies: [sky({ airC: 42 })], rounds: [round] }).stand).toBe("shade");
});

test("a nearly full set that is not enough is not sent to a plug", () => {
  expect(advised(97, { rounds: [longRound(16)] })).toMatchObject({ best: "go", reason: "setNearlyFull" });
});

test("the turn is where the day out and back is just enough, one day in ten apart", () => {
  const given = dayAt(70, 12);
  const km = turn(given);
  const found = turnCaseOf(given, 0);
  expect(km).toBeGreaterThan(1);
  const lowAt = (turnKm: number) => planDay(found?.inputTo(turnKm) ?? dayInputOf(given)).lowest.p10;
  expect(lowAt(km)).toBeGreaterThanOrEqual(vehicle.battery.reserveShare);
  expect(lowAt(km + 0.5)).toBeLessThan(vehicle.battery.reserveShare);
});

test("being out already leaves the same way: the turn lies half of that way farther", () => {
  const inside = turn(dayAt(70, 21));
  const out = turn(dayAt(70, 21), 4);
  expect(Math.abs(out - (inside + 2))).toBeLessThan(0.8);
});

test("night and rain bring the turn nearer, an empty set brings it to nothing", () => {
  const noon = turn(dayAt(60, 12));
  expect(turn(dayAt(60, 21))).toBeLessThan(noon);
  expect(turn(dayAt(60, 12, { skies: [sky({ wet: true })] }))).toBeLessThan(noon);
  expect(turn(dayAt(21, 21), 10)).toBe(0);
});

test("less on board leaves more km, nothing more than half", () => {
  const loaded = { ...vehicle, usual: { ...vehicle.usual, loadClass: "full" as const } };
  const [half, none] = lighterLoads(dayAt(70, leaveH, { vehicle: loaded }));
  expect([half?.to, none?.to]).toEqual(["half", "empty"]);
  expect(half?.km).toBeGreaterThan(0);
  expect(none?.km).toBeGreaterThan(half?.km ?? 0);
});
