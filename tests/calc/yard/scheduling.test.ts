import fc from "fast-check";
import { expect, test } from "vitest";
import { leastCostPaused, leastCostUnbroken } from "../../../src/calc/yard/priced-slots.js";
import {
  fewestLate,
  fitsSplit,
  leastMaxLatenessH,
  longestFirstH,
  shortestMakespanH,
  splitMakespanH,
} from "../../../src/calc/yard/scheduling.js";

/** Every order of the numbers below n. */
function* orders(n: number, taken: readonly number[] = []): Generator<readonly number[]> {
  if (taken.length === n) yield taken;
  for (let i = 0; i < n; i++) if (!taken.includes(i)) yield* orders(n, [...taken, i]);
}
const job = fc.record({
  hours: fc.integer({ min: 1, max: 9 }),
  ready: fc.integer({ min: 0, max: 8 }),
  due: fc.integer({ min: 1, max: 20 }),
});
const jobs = fc.array(job, { minLength: 1, maxLength: 6 });
const columns = (list: readonly { hours: number; ready: number; due: number }[]) => ({
  jobHours: list.map(({ hours }) => hours),
  readyH: list.map(({ ready }) => ready),
  dueH: list.map(({ due }) => due),
});
const timesOf = (order: readonly number[], { jobHours, readyH }: ReturnType<typeof columns>) => {
  let clock = 0;
  return order.map((i) => (clock = Math.max(clock, readyH[i] as number) + (jobHours[i] as number)));
};

test("least lateness and fewest late agree with trying every order", () => {
  fc.assert(
    fc.property(jobs, (list) => {
      const given = columns(list);
      const all = [...orders(list.length)];
      const lateness = all.map((order) =>
        Math.max(...timesOf(order, given).map((end, i) => end - (given.dueH[order[i] as number] as number))),
      );
      expect(leastMaxLatenessH(given)).toBeCloseTo(Math.min(...lateness), 9);
      const atOnce = { ...given, readyH: given.readyH.map(() => 0) };
      const late = all.map(
        (order) => timesOf(order, atOnce).filter((end, i) => end > (given.dueH[order[i] as number] as number)).length,
      );
      expect(fewestLate(given.jobHours, given.dueH)).toBe(Math.min(...late));
    }),
    { numRuns: 60 },
  );
});

test("unsplit makespans lie between McNaughton's bound and Graham's 4/3", () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 7 }),
      fc.integer({ min: 1, max: 3 }),
      (hours, sockets) => {
        let best = Number.POSITIVE_INFINITY;
        for (let code = 0; code < sockets ** hours.length; code++) {
          const busy = new Array<number>(sockets).fill(0);
          hours.forEach((h, i) => {
            const on = Math.floor(code / sockets ** i) % sockets;
            busy[on] = (busy[on] as number) + h;
          });
          best = Math.min(best, Math.max(...busy));
        }
        expect(shortestMakespanH(hours, sockets)).toBe(best);
        expect(splitMakespanH(hours, sockets)).toBeLessThanOrEqual(best + 1e-9);
        expect(longestFirstH(hours, sockets)).toBeLessThanOrEqual((4 / 3 - 1 / (3 * sockets)) * best + 1e-9);
      },
    ),
    { numRuns: 60 },
  );
});

test("what fits unsplit on one socket fits split; ready at 0 and one due time gives McNaughton's bound", () => {
  fc.assert(
    fc.property(jobs, fc.integer({ min: 1, max: 4 }), (list, sockets) => {
      const given = columns(list);
      if (leastMaxLatenessH(given) <= 0) expect(fitsSplit(given, 1)).toBe(true);
      const bound = splitMakespanH(given.jobHours, sockets);
      const by = (dueH: number) =>
        fitsSplit({ ...given, readyH: list.map(() => 0), dueH: list.map(() => dueH) }, sockets);
      expect(by(bound + 0.01)).toBe(true);
      expect(by(bound - 0.01)).toBe(false);
    }),
  );
});

test("pauses never cost more than an unbroken block", () => {
  const vehicle = fc.record({
    arriveSlot: fc.integer({ min: 0, max: 4 }),
    departSlot: fc.integer({ min: 5, max: 8 }),
    slotsNeeded: fc.integer({ min: 1, max: 3 }),
  });
  fc.assert(
    fc.property(
      fc.array(vehicle, { maxLength: 4 }),
      fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 8, maxLength: 8 }),
      (vehicles, pricePerSlot) => {
        const given = { vehicles, sockets: 2, pricePerSlot };
        const unbroken = leastCostUnbroken(given);
        const paused = leastCostPaused(given);
        if (unbroken !== null) {
          expect(paused).not.toBeNull();
          expect(paused as number).toBeLessThanOrEqual(unbroken + 1e-9);
        }
        if (paused !== null && vehicles.every(({ slotsNeeded }) => slotsNeeded === 1))
          expect(unbroken).toBeCloseTo(paused, 9);
      },
    ),
  );
});
