import { expect, test } from "vitest";
import type { Round, Vehicle, Yard } from "../../src/records/index.js";
import { type KitQuestion, sizingCaseOf } from "../../src/records/map/sizing.js";
import { DAY_MS } from "../../src/units/numbers.js";
import { sizeKit } from "../../src/work/size-kit.js";
import { examples } from "./examples.js";

const yard = examples.yard as unknown as Yard;
const vehicle = examples.vehicle as unknown as Vehicle;
const round = examples.round as unknown as Round;
const asked = (more: Partial<KitQuestion> = {}): KitQuestion => ({
  yard,
  vehicle,
  round,
  workDaysPerWeek: 7,
  plugTo: "need",
  years: 2,
  ...more,
});
const laid = (more: Partial<KitQuestion> = {}) => {
  const outcome = sizingCaseOf(asked(more));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};

test("a month is one day from coming home to coming home, shift at the end, no socket on the way", () => {
  const withSocket: Round = {
    ...round,
    parts: round.parts.map((part) => (part.kind === "stop" ? { ...part, socketKw: 2 } : part)),
  };
  const of = laid({ round: withSocket });
  expect(of.months).toHaveLength(12);
  for (const { workDay, restDay } of of.months) {
    for (const day of [workDay, restDay]) {
      const first = day[0];
      const last = day[day.length - 1];
      expect((last?.toUtcMs ?? 0) - (first?.fromUtcMs ?? 0)).toBe(DAY_MS);
      day.slice(1).forEach((segment, i) => {
        expect(segment.fromUtcMs).toBe(day[i]?.toUtcMs);
      });
    }
    expect(workDay[workDay.length - 1]?.onShift).toBe(true);
    expect(workDay.every((segment) => segment.chargerW === 0)).toBe(true);
    expect(restDay.some((segment) => segment.onShift)).toBe(false);
  }
});

test("thirty sizes around what the vehicle has, and heavier kits use more", () => {
  const of = laid();
  expect(of.roofW).toEqual([0, 200, 300, 400, 500, 600]);
  expect(of.packWh).toEqual([5120, 7680, 10240, 12800, 15360]);
  const learned = vehicle.learned?.driveFactor ?? 1;
  expect(of.driveFactor(400, 7680)).toBeCloseTo(learned, 12);
  expect(of.driveFactor(600, 7680)).toBeGreaterThan(learned);
  expect(of.driveFactor(400, 15360)).toBeGreaterThan(of.driveFactor(400, 10240));
  expect(of.driveFactor(400, 15360)).toBeLessThan(1.15 * learned); // 77 kg on a vehicle of a ton
});

test("a vehicle without a roof is sized for one, and its weight counts", () => {
  const bare: Vehicle = { ...vehicle, roof: { ...vehicle.roof, faces: [] } };
  const of = laid({ vehicle: bare });
  expect(of.roofW[3]).toBe(420);
  expect(of.driveFactor(420, 7680)).toBeGreaterThan(of.driveFactor(0, 7680));
});

test("a set of another size has its charge, its resistance and its acceptance in proportion", () => {
  const storeOf = laid().months[6]?.storeOf;
  if (!storeOf) throw new Error("no month");
  const one = storeOf(7680);
  const two = storeOf(15360);
  expect(two.usableWh / one.usableWh).toBeCloseTo(2, 9);
  expect(two.lossPerW / one.lossPerW).toBeCloseTo(0.5, 9);
  expect((two.acceptance[0]?.w ?? 0) / (one.acceptance[0]?.w ?? 1)).toBeCloseTo(2, 9);
});

test("a round without a leg, or longer than a day, is refused with its place", () => {
  const none = sizingCaseOf(asked({ round: { ...round, parts: round.parts.filter((part) => part.kind === "stop") } }));
  expect(none.ok ? "taken" : none.problems[0]?.code).toBe("noLeg");
  const long: Round = { ...round, parts: round.parts.map((part) => ({ ...part, minutes: 700 })) };
  const tooLong = sizingCaseOf(asked({ round: long }));
  expect(tooLong.ok ? "taken" : tooLong.problems[0]?.code).toBe("roundTooLong");
});

test("a vehicle's year comes out of its records", () => {
  const shares: number[] = [];
  const year = sizeKit(asked(), (share) => shares.push(share));
  if (!year.ok) throw new Error(JSON.stringify(year.problems));
  expect(year.value.cells).toHaveLength(30);
  expect(shares[shares.length - 1]).toBe(1);
  const none = year.value.cells.filter((cell) => cell.roofW === 0);
  expect(none.every((cell) => cell.daysWithoutPlug === 0)).toBe(true);
});
