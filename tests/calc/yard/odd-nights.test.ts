// Nights at the edge of what can happen. The separate checker decides on rules and aims; the few figures are worked by hand.
import { describe, expect, test } from "vitest";
import type { Night, Stay } from "../../../src/calc/yard/night.js";
import { planNight } from "../../../src/calc/yard/plan-night.js";
import { checkPlan } from "../../tools/depot-score.mjs";
import { inventNight } from "./nights.js";

const HOUR_MS = 3_600_000;
const planned = (night: Night) => {
  const answer = planNight(night, { seed: 1, clockMs: () => 0, budgetMs: 1, steps: 2000 });
  const { broken, score } = checkPlan({ format: "depot-night/1", ...night }, answer.plan);
  expect(broken).toEqual([]);
  return { ...answer, score };
};
const usual = inventNight({ seed: 5, vehicles: 6, sockets: 3, power: 1.5 });

describe("nights with nothing to do, or nothing to do it with", () => {
  test("no vehicle: nothing is planned, nothing is missing", () => {
    const { plan, score } = planned({ ...usual, stays: [] });
    expect(plan.sessions).toEqual([]);
    expect(score).toMatchObject({ short: 0, money: 0, handling: 0 });
  });
  test("no socket: all who need a charge are short, proved", () => {
    const { plan, score, bounds } = planned({ ...usual, sockets: [] });
    expect(plan.sessions).toEqual([]);
    expect(score.short).toBe(6);
    expect(bounds.short).toBe(6);
  });
  test("everybody full: nobody is plugged in", () => {
    const stays = usual.stays.map((stay) => ({ ...stay, arriveKwh: stay.fullKwh, needKwh: 0, safeKwh: 0 }));
    const { plan, score } = planned({ ...usual, stays });
    expect(plan.sessions).toEqual([]);
    expect(score).toMatchObject({ short: 0, money: 0, readySlots: 0 });
  });
  test("nobody fits: every vehicle is named, and the sockets too", () => {
    const { plan, score, problems } = planned({
      ...usual,
      stays: usual.stays.map((stay) => ({ ...stay, plugs: ["Z"] })),
    });
    expect(plan.sessions).toEqual([]);
    expect(score.short).toBe(6);
    expect(problems.filter(({ code }) => code === "noSocketFits")).toHaveLength(6);
    expect(problems.filter(({ code }) => code === "socketFitsNobody")).toHaveLength(3);
  });
  test("supply off all night: nothing charges", () => {
    const cuts = [{ fromUtcMs: usual.startUtcMs, toUtcMs: usual.startUtcMs + 14 * HOUR_MS }];
    const { score, bounds } = planned({ ...usual, site: { ...usual.site, cuts } });
    expect(score).toMatchObject({ short: 6, money: 0 });
    expect(bounds.short).toBe(6);
  });
});

/** One vehicle, 1 kW, from noon to noon of a day on which the clock changes. */
function overTheChange(startUtcMs: number, hours: number): Night {
  const stay: Stay = {
    id: "v",
    chemistry: "lithium",
    arriveUtcMs: startUtcMs,
    departUtcMs: startUtcMs + hours * HOUR_MS,
    fullKwh: 10,
    arriveKwh: 1,
    needKwh: 5,
    safeKwh: 1,
    chargerKw: 1,
    acceptance: [
      { levelKwh: 0, kw: 1 },
      { levelKwh: 10, kw: 1 },
    ],
    plugs: ["A"],
    roundWeight: 1,
    fullDue: false,
  };
  return {
    id: `change-${hours}`,
    zone: "Europe/Berlin",
    startUtcMs,
    slotMinutes: 15,
    slotCount: hours * 4,
    site: { limitKw: 3, marginKw: 0, baseLoadKw: new Array<number>(hours * 4).fill(0), cuts: [] },
    staff: { awake: [], wakeUtcMs: [], wakeWeightSwaps: 1 },
    tariff: { kind: "bands", bands: [{ from: "00:00", to: "05:00", perKwh: 1 }], otherwisePerKwh: 10 },
    sockets: [{ id: "s", limitKw: 1, plug: "A", timer: true }],
    stays: [stay],
  };
}

describe("nights on which the clock changes (Berlin 2027, IANA time zone database)", () => {
  // cheap from midnight to five: four hours in spring, six in autumn; six units are needed at one unit an hour
  test("23 hours: four cheap units and two dear ones", () =>
    expect(planned(overTheChange(Date.UTC(2027, 2, 27, 11), 23)).score.money).toBeCloseTo(4 * 1 + 2 * 10, 6));
  test("25 hours: six cheap units", () =>
    expect(planned(overTheChange(Date.UTC(2027, 9, 30, 10), 25)).score.money).toBeCloseTo(6 * 1, 6));
});

describe("what a swap is worth to the owner", () => {
  // no timer: at one in the afternoon six dear units without a swap; just before the cheap hours one dear and five cheap, with a swap
  const night = (swapWorth: number): Night => {
    const of = overTheChange(Date.UTC(2027, 1, 10, 11), 24);
    const always = [{ fromUtcMs: of.startUtcMs, toUtcMs: of.startUtcMs + 24 * HOUR_MS }];
    return {
      ...of,
      sockets: [{ id: "s", limitKw: 1, plug: "A", timer: false }],
      staff: { ...of.staff, awake: always, swapWorth },
    };
  };
  test.each([
    [0, 15, 1],
    [44, 15, 1],
    [46, 60, 0],
  ])("at %i: the night costs %i, %i swaps", (worth, money, handling) => {
    const { score } = planned(night(worth));
    expect(score).toMatchObject({ short: 0, handling });
    expect(score.money).toBeCloseTo(money, 6);
  });
});
