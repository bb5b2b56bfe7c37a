import fc from "fast-check";
import { expect, test } from "vitest";
import {
  type CcCv,
  ccCvCharge,
  countsByRange,
  cyclesAtDepth,
  fullCycles,
  minerSum,
  powerSag,
  rainflow,
} from "../../../src/calc/battery/index.js";

const num = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const runs = { numRuns: 500 }; // others each time; a failure names its seed

test("rainflow shares out the whole way of a series: two ranges a full cycle, one a half (ASTM E1049, by its rules)", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 100 }), { maxLength: 60 }), (series) => {
      const way = series.slice(1).reduce((all, value, i) => all + Math.abs(value - (series[i] as number)), 0);
      const cycles = rainflow(series);
      expect(2 * fullCycles(cycles)).toBeCloseTo(way, 9);
      const span = series.length > 0 ? Math.max(...series) - Math.min(...series) : 0;
      expect(cycles.at(-1)?.range ?? 0).toBe(span);
      expect(countsByRange(cycles).reduce((all, { count }) => all + count, 0)).toBeCloseTo(
        cycles.reduce((all, { count }) => all + count, 0),
        9,
      );
    }),
    runs,
  );
});

test("a charge agrees with its own differential equation, stepped by hand", () => {
  const any: fc.Arbitrary<CcCv> = fc
    .record({
      capacityAh: num(20, 200),
      startShare: num(0, 0.95),
      emptyOpenCircuitV: num(44, 52),
      riseV: num(1, 10),
      resistanceOhm: num(0.01, 0.5),
      chargeCurrentA: num(3, 40),
      overV: num(0.2, 5),
      endCurrentA: num(0.5, 3),
      chargeAcceptance: num(0.7, 1),
    })
    .map(({ riseV, overV, ...rest }) => ({
      ...rest,
      fullOpenCircuitV: rest.emptyOpenCircuitV + riseV,
      limitV: rest.emptyOpenCircuitV + riseV + overV,
    }));
  fc.assert(
    fc.property(any, (of) => {
      const charge = ccCvCharge(of);
      const stepH = Math.max(charge.totalH, 1e-3) / 20_000;
      let share = of.startShare;
      let hours = 0;
      let wh = 0;
      while (share < 1) {
        const restedV = of.emptyOpenCircuitV + (of.fullOpenCircuitV - of.emptyOpenCircuitV) * share;
        const amps = Math.min(of.chargeCurrentA, (of.limitV - restedV) / of.resistanceOhm);
        if (amps < of.chargeCurrentA && amps <= of.endCurrentA) break;
        share += (of.chargeAcceptance * amps * stepH) / of.capacityAh;
        wh += amps * (restedV + amps * of.resistanceOhm) * stepH;
        hours += stepH;
      }
      expect(Math.abs(hours - charge.totalH)).toBeLessThan(0.002 * charge.totalH + 2 * stepH);
      expect(Math.min(1, share)).toBeCloseTo(charge.endShare, 2);
      expect(Math.abs(wh - charge.terminalWh)).toBeLessThan(0.003 * charge.terminalWh + 1);
    }),
    { numRuns: 60, seed: 20_270_210 },
  );
});

test("sag keeps the power book: what the cells give is load and heat (Ohm)", () => {
  fc.assert(
    fc.property(num(20, 80), num(0.005, 0.3), num(0, 20_000), (openCircuitV, resistanceOhm, loadW) => {
      const sag = powerSag({ openCircuitV, resistanceOhm, loadW, cutOffV: 0.8 * openCircuitV });
      expect(sag.feasible).toBe(loadW <= sag.maxPowerW);
      if (sag.currentA === null || sag.terminalV === null || sag.lossW === null) return;
      expect(openCircuitV * sag.currentA).toBeCloseTo(loadW + sag.lossW, 5);
      expect(sag.terminalV * sag.currentA).toBeCloseTo(loadW, 5);
      expect(sag.terminalV).toBeGreaterThanOrEqual(openCircuitV / 2 - 1e-6); // the stable root
    }),
    runs,
  );
});

test("Miner: using up the cycles of any one depth is one life (Palmgren-Miner)", () => {
  const curve = [
    [0.1, 3100],
    [0.25, 925],
    [0.5, 370],
    [0.8, 200],
    [1, 150],
  ] as const;
  for (const depth of [0.05, 0.1, 0.17, 0.5, 0.9, 1])
    expect(minerSum(curve, [[depth, cyclesAtDepth(curve, depth)]])).toBeCloseTo(1, 12);
  expect(minerSum(curve, [[0, 100]])).toBe(0);
});

// By hand: 50 Ah from half, 52 V whatever the level behind 0.1 ohm, 54 V at most: 20 A all the way, 25 Ah in 1.25 h, 1,350 Wh.
test("a flat line at the limit takes one current until full", () => {
  const flat = { emptyOpenCircuitV: 52, fullOpenCircuitV: 52, resistanceOhm: 0.1, limitV: 54, chargeAcceptance: 1 };
  const charge = ccCvCharge({ ...flat, capacityAh: 50, startShare: 0.5, chargeCurrentA: 30, endCurrentA: 2 });
  expect(charge.constantCurrentH).toBe(0);
  expect(charge.constantVoltageH).toBeCloseTo(1.25, 9);
  expect(charge.terminalWh).toBeCloseTo(1350, 9);
  expect(charge).toMatchObject({ endShare: 1, finalCurrentA: 20, passedAh: 25 });
});
