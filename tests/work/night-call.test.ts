import { describe, expect, test } from "vitest";
import { compareScores } from "../../src/calc/yard/night.js";
import { demoFleets } from "../../src/records/demo/index.js";
import type { Yard } from "../../src/records/index.js";
import type { NightCase } from "../../src/records/map/night.js";
import { nightRecordOf, shareAtKwh } from "../../src/records/map/night-plan.js";
import { plugsOf } from "../../src/records/map/night-plugs.js";
import type { WorkerLike } from "../../src/work/bridge.js";
import { askNight, type NightReply } from "../../src/work/night-call.js";
import { type NightShown, planYard } from "../../src/work/night-calls.js";
import { checkPlan } from "../tools/depot-score.mjs";

const TODAY = "2027-02-10";
const EVENING = Date.UTC(2027, 1, 10, 15);
const fleet = demoFleets.quay(TODAY, EVENING);
const given: NightCase = {
  yard: fleet.yards[0] as Yard,
  sockets: fleet.sockets,
  vehicles: fleet.vehicles,
  rounds: fleet.rounds,
  shifts: fleet.shifts,
  skies: fleet.skies,
  readings: fleet.readings,
  nowUtcMs: EVENING,
  followed: null,
  draws: 48,
};
const quiet = { onShare: () => {}, onBetter: () => {} };
const planned = (of: NightCase = given): NightShown => {
  const outcome = planYard({ given: of, budgetMs: 150 }, quiet);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};

const file = (shown: NightShown) => ({ format: "depot-night/1", ...shown.layout.night });

describe("the demo's night", () => {
  const shown = planned();
  test("its plan breaks no rule and is scored as the separate checker does", () => {
    const checked = checkPlan(file(shown), shown.plan);
    expect(checked.broken).toEqual([]);
    expect(checked.score.short).toBe(shown.score.short);
    expect(checked.score.money).toBeCloseTo(shown.score.money, 2);
    expect(shown.proof.short).toBeLessThanOrEqual(shown.score.short);
  });
  test("plans that are heard get better, the first is there before the budget is spent", () => {
    const heard: NightShown[] = [];
    planYard({ given, budgetMs: 150 }, { onShare: () => {}, onBetter: (better) => heard.push(better) });
    expect(heard.length).toBeGreaterThan(0);
    heard.slice(1).forEach((one, i) => {
      expect(compareScores(one.score, heard[i]?.score ?? one.score)).toBeLessThanOrEqual(0);
    });
  });
  test("as a record that is followed it is planned again without a change", () => {
    const record = nightRecordOf(shown.layout, shown.plan, {
      walked: shown.walked,
      yardId: given.yard.id,
      nowUtcMs: EVENING,
      before: null,
    });
    expect(record.sessions).toHaveLength(shown.plan.sessions.length);
    const again = planned({ ...given, followed: record, nowUtcMs: EVENING + 900_000 });
    expect(again.score.changes).toBe(0);
    expect(checkPlan(file(again), again.plan).broken).toEqual([]);
  });
  test("slots reach the forecast: between start and stop, without the cut, within charger and socket", () => {
    const record = nightRecordOf(shown.layout, shown.plan, {
      walked: shown.walked,
      yardId: given.yard.id,
      nowUtcMs: EVENING,
      before: null,
    });
    const first = record.sessions[0];
    const vehicle = fleet.vehicles.find(({ id }) => id === first?.vehicleId);
    if (!first || !vehicle) throw new Error("no session");
    const middle = Math.round((first.startUtcMs + first.stopUtcMs) / 2);
    const cuts = [{ fromUtcMs: middle, toUtcMs: middle + 60_000 }];
    const plugs = plugsOf(vehicle, [record], { sockets: fleet.sockets, cuts });
    expect(plugs.map(({ fromUtcMs, toUtcMs }) => [fromUtcMs, toUtcMs])).toEqual([
      [first.startUtcMs, middle],
      [middle + 60_000, first.stopUtcMs],
    ]);
    const socketW =
      (fleet.sockets.find(({ id }) => id === first.socketId)?.limitKw ?? 0) * 1000 * vehicle.charger.efficiency;
    expect(plugs[0]?.chargerW).toBe(Math.min(vehicle.charger.ratedW, socketW));
    const dead = { ...record, events: [{ kind: "chargerDead" as const, atUtcMs: EVENING, vehicleId: vehicle.id }] };
    expect(plugsOf(vehicle, [dead], { sockets: fleet.sockets, cuts })).toEqual([]);
  });
  test("levels come back from units on the meter", () => {
    for (const about of shown.layout.about) {
      const stay = shown.layout.night.stays.find(({ id }) => id === about.stayId);
      expect(shareAtKwh(about, stay?.arriveKwh ?? 0)).toBeCloseTo(about.arriveShare, 2);
      expect(shareAtKwh(about, about.fullKwh)).toBeCloseTo(1, 6);
    }
  });
});

describe("asking in a worker", () => {
  const workerOf = (replies: readonly NightReply[]) => {
    const worker = {
      ended: false,
      onmessage: null as WorkerLike["onmessage"],
      onerror: null as WorkerLike["onerror"],
      postMessage() {
        for (const data of replies) setTimeout(() => worker.ended || worker.onmessage?.({ data }), 0);
      },
      terminate() {
        worker.ended = true;
      },
    };
    return worker;
  };
  const ask = (more: Partial<Parameters<typeof askNight>[0]> = {}) => ({
    given,
    budgetMs: 1,
    signal: new AbortController().signal,
    onShare: () => {},
    onBetter: () => {},
    ...more,
  });
  const result = { ok: false as const, problems: [{ code: "zoneUnknown", where: "yard.zone" }] };

  test("hears shares and plans in their order, then the end, and ends the worker", async () => {
    const heard: unknown[] = [];
    const shown = planned();
    const worker = workerOf([{ share: 0.5 }, { better: shown }, { result }]);
    const answer = await askNight(
      ask({ onShare: (share) => heard.push(share), onBetter: (better) => heard.push(better) }),
      () => worker,
    );
    expect(heard).toEqual([0.5, shown]);
    expect(answer).toEqual(result);
    expect(worker.ended).toBe(true);
  });
  test("a bug rejects, giving up ends the worker at once", async () => {
    await expect(askNight(ask(), () => workerOf([{ broke: "a bug" }]))).rejects.toThrow("a bug");
    const worker = workerOf([]);
    const abort = new AbortController();
    const answer = askNight(ask({ signal: abort.signal }), () => worker);
    abort.abort(new Error("enough"));
    await expect(answer).rejects.toThrow("enough");
    expect(worker.ended).toBe(true);
  });
  test("where no worker starts the night is planned here", async () => {
    const answer = await askNight(ask(), () => {
      throw new Error("no workers");
    });
    expect(answer.ok).toBe(true);
  });
});

describe("many vehicles", () => {
  const COPIES = 13;
  const many: NightCase = {
    ...given,
    draws: 24,
    vehicles: Array.from({ length: COPIES }, (_, k) =>
      fleet.vehicles.map((one) => ({ ...one, id: `${one.id}-${k}` })),
    ).flat(),
    readings: Array.from({ length: COPIES }, (_, k) =>
      fleet.readings.map((one) => ({ ...one, id: `${one.id}-${k}`, vehicleId: `${one.vehicleId}-${k}` })),
    ).flat(),
  };
  test("a first look from quick forecasts comes before a third of the forecasts is done, and is not the answer", () => {
    const heard: { readonly rough: boolean; readonly share: number }[] = [];
    let last = 0;
    const outcome = planYard(
      { given: many, budgetMs: 1 },
      {
        onShare: (share) => {
          expect(share).toBeGreaterThanOrEqual(last);
          last = share;
        },
        onBetter: ({ rough, layout }) => {
          expect(layout.night.stays.length).toBeGreaterThan(120);
          heard.push({ rough, share: last });
        },
      },
    );
    expect(heard[0]?.rough).toBe(true);
    expect(heard[0]?.share).toBeLessThan(0.31);
    expect(heard.slice(1).every(({ rough }) => !rough)).toBe(true);
    expect(outcome.ok && outcome.value.rough).toBe(false);
  });
  test("a yard of a dozen has no first look", () => expect(planned().rough).toBe(false));
});
