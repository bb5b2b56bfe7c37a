// Plans are followed by a separate checker (tests/tools) too: what the screens show has to agree with it.
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { Night, Plan, Session, Stay } from "../../../src/calc/yard/night.js";
import { walkPlan } from "../../../src/calc/yard/walk-plan.js";
import { whyShort, whyThen } from "../../../src/calc/yard/why.js";
import { checkPlan } from "../../tools/depot-score.mjs";

const folder = "shared/depot-shown";
const files = readdirSync(folder).filter((file) => file.endsWith(".json"));

test.each(files)("%s: short, missing, money and top power as the checker counts them", (file) => {
  const night = JSON.parse(readFileSync(`${folder}/${file}`, "utf8")) as Night;
  const plan = JSON.parse(readFileSync(`${folder}/plans/${file}`, "utf8")) as Plan;
  const walked = walkPlan(night, plan);
  const { score, peakKw } = checkPlan(night, plan);
  expect(walked.outcomes.filter((one) => one.short)).toHaveLength(score.short);
  const missing = walked.outcomes.reduce((sum, one) => sum + Math.round(100 * one.missingKwh) / 100, 0);
  expect(missing).toBeCloseTo(score.missingKwh, 1);
  if (!night.tariff.demandPerKw) expect(walked.money).toBeCloseTo(score.money, 2);
  const cut = (t: number) =>
    night.site.cuts.some(({ fromUtcMs, toUtcMs }) => {
      const at = night.startUtcMs + t * night.slotMinutes * 60_000;
      return fromUtcMs <= at && at < toUtcMs;
    });
  const top = Math.max(0, ...walked.chargeKw.map((kw, t) => (cut(t) ? 0 : kw + (night.site.baseLoadKw[t] ?? 0))));
  expect(top).toBeCloseTo(peakKw, 6);
  for (const own of walked.outcomes) {
    expect(whyShort(night, walked, own) !== null).toBe(own.short);
    expect(whyThen(night, walked, own) !== null).toBe(own.session !== null);
  }
});

// One socket of 1 kW, one charger of 1 kW with a flat acceptance: every figure below is hours times kW.
const START = Date.UTC(2027, 1, 10, 18);
const at = (hour: number): number => START + hour * 3_600_000;
const stay = (id: string, more: Partial<Stay> = {}): Stay => ({
  id,
  arriveUtcMs: at(0),
  departUtcMs: at(8),
  fullKwh: 10,
  arriveKwh: 2,
  needKwh: 3,
  safeKwh: 1,
  chargerKw: 1,
  acceptance: [
    { levelKwh: 0, kw: 1 },
    { levelKwh: 10, kw: 1 },
  ],
  plugs: ["A"],
  fullDue: false,
  ...more,
});
const nightOf = (stays: readonly Stay[], more: Partial<Night> = {}): Night => ({
  id: "n",
  zone: "UTC",
  startUtcMs: START,
  slotMinutes: 15,
  slotCount: 32,
  site: { limitKw: 3, marginKw: 0, baseLoadKw: new Array<number>(32).fill(0.5), cuts: [] },
  staff: { awake: [{ fromUtcMs: at(0), toUtcMs: at(8) }], wakeUtcMs: [], wakeWeightSwaps: 1 },
  tariff: { kind: "bands", bands: [{ from: "22:00", to: "06:00", perKwh: 10 }], otherwisePerKwh: 30 },
  sockets: [{ id: "s", limitKw: 1, plug: "A", timer: true }],
  stays,
  ...more,
});
const session = (id: string, from: number, to: number, socket = "s"): Session => ({
  stay: id,
  socket,
  plugUtcMs: at(from),
  startUtcMs: at(from),
  stopUtcMs: at(to),
  unplugUtcMs: at(to),
});
const short = (night: Night, sessions: readonly Session[], id: string) => {
  const walked = walkPlan(night, { sessions });
  const own = walked.outcomes.find((one) => one.stay.id === id);
  if (!own) throw new Error(id);
  return whyShort(night, walked, own);
};

describe("a night worked by hand", () => {
  test("four hours over the price change: four units, two dear and two cheap", () => {
    const walked = walkPlan(nightOf([stay("a")]), { sessions: [session("a", 2, 6)] });
    const [own] = walked.outcomes;
    expect(own?.gridKwh).toBeCloseTo(4, 9);
    expect(own?.departKwh).toBeCloseTo(6, 9);
    expect(own?.money).toBeCloseTo(2 * 30 + 2 * 10, 9);
    expect(own?.short).toBe(false);
    expect(walked.topKw).toBeCloseTo(1.5, 9);
  });
  test("a cut of an hour takes a unit and money with it", () => {
    const night = nightOf([stay("a")]);
    const cut = { ...night, site: { ...night.site, cuts: [{ fromUtcMs: at(4), toUtcMs: at(5) }] } };
    const [own] = walkPlan(cut, { sessions: [session("a", 2, 6)] }).outcomes;
    expect(own?.gridKwh).toBeCloseTo(3, 9);
    expect(own?.missingKwh).toBeCloseTo(1, 9);
    expect(own?.money).toBeCloseTo(2 * 30 + 10, 9);
  });
});

describe("why a vehicle ends short: the first that applies", () => {
  const code = (stays: readonly Stay[], sessions: readonly Session[] = [], more: Partial<Night> = {}) =>
    short(nightOf(stays, more), sessions, "a");
  test("even full is too little, no plug fits, the stay is too short, the cut takes the time", () => {
    expect(code([stay("a", { needKwh: 9 })])?.code).toBe("fullTooLittle");
    expect(code([stay("a", { plugs: ["B"] })])?.code).toBe("noSocketFits");
    expect(code([stay("a", { departUtcMs: at(3) })])).toEqual({ code: "stayTooShort", missingMinutes: 60 });
    const { site } = nightOf([]);
    const cuts = [{ fromUtcMs: at(1), toUtcMs: at(7) }];
    expect(code([stay("a")], [], { site: { ...site, cuts } })?.code).toBe("cutTakesTheTime");
  });
  test("the site is full, by how much; the socket is held; nobody is awake", () => {
    const { site } = nightOf([]);
    const tight = {
      site: { ...site, limitKw: 2 },
      sockets: ["s", "t"].map((id) => ({ id, limitKw: 1, plug: "A", timer: true })),
    };
    const other = stay("b", { needKwh: 7, safeKwh: 0 });
    expect(code([stay("a"), other], [session("b", 0, 7, "t")], tight)).toEqual({
      code: "siteFull",
      fromUtcMs: at(0),
      toUtcMs: at(4),
      moreKw: 0.5,
    });
    expect(code([stay("a"), other], [session("b", 0, 7)])?.code).toBe("socketsHeld");
    const asleep = { staff: { awake: [], wakeUtcMs: [], wakeWeightSwaps: 1 } };
    expect(code([stay("a"), stay("b", { needKwh: 1, safeKwh: 0 })], [session("b", 0, 1)], asleep)?.code).toBe(
      "nobodyAwake",
    );
    expect(code([stay("a")])?.code).toBe("roomLeft");
  });
  test("a charge that waits saves what the dear hours would have cost more", () => {
    const night = nightOf([stay("a")]);
    const walked = walkPlan(night, { sessions: [session("a", 4, 8)] });
    const [own] = walked.outcomes;
    expect(own && whyThen(night, walked, own)).toEqual({ code: "waitsForCheap", saves: 4 * 30 - 4 * 10 });
  });
});
