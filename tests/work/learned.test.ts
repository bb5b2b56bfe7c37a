import { expect, test } from "vitest";
import { planDay } from "../../src/calc/day/plan-day.js";
import { type Forecast, replay } from "../../src/cli/replay-run.js";
import type { Learned, PlaceLearned } from "../../src/records/index.js";
import { answerInputOf } from "../../src/records/map/answer-input.js";
import { startLearning } from "../../src/records/map/learn.js";
import { packVehicle, unpackVehicle } from "../../src/records/map/learn-pack.js";
import { HOUR_MS } from "../../src/units/numbers.js";
import { civilDate, plusDays, utcMsAt } from "../../src/units/zone.js";
import { type LearnAsk, learnYard } from "../../src/work/learned.js";
import { simulateWorld } from "../replay/simulate.js";

const DAYS = 16;
const DRAWS = 64;
const { file } = simulateWorld({ seed: 4, vehicles: 2, days: DAYS });
const { fleet } = file;
const [yard] = fleet.yards;
if (!yard) throw new Error("A world without a yard");

/** What the app holds between two looks. */
interface Phone {
  readonly learned: ReadonlyMap<string, Learned>;
  readonly place: PlaceLearned | null;
}

/** Learning as the app asks for it at some moment: from what it held, with what is on record by then. */
function look(phone: Phone, nowUtcMs: number, settles: boolean): Phone {
  if (!yard) return phone;
  const today = civilDate(nowUtcMs, yard.zone);
  const isEvening = nowUtcMs >= utcMsAt(today, 20 * 60, yard.zone);
  const skies = fleet.skies.filter((sky) => sky.date <= plusDays(today, 1));
  const ask: LearnAsk = {
    yard,
    place: phone.place,
    rounds: fleet.rounds,
    skies,
    nowUtcMs,
    vehicles: fleet.vehicles.map((vehicle) => ({
      vehicle,
      held: phone.learned.get(vehicle.id) ?? null,
      shifts: fleet.shifts.filter(({ vehicleId }) => vehicleId === vehicle.id),
      readings: fleet.readings.filter(({ vehicleId, atUtcMs }) => vehicleId === vehicle.id && atUtcMs <= nowUtcMs),
      entries: fleet.entries.filter(
        ({ vehicleId, date }) => vehicleId === vehicle.id && (date < today || (isEvening && date === today)),
      ),
      forecasts: [],
    })),
  };
  const { place, vehicles } = learnYard(ask);
  const keep = ({ record }: (typeof vehicles)[number]): Learned =>
    settles ? record : { ...record, settled: phone.learned.get(record.id)?.settled ?? null };
  return {
    place: settles ? place : phone.place && { ...phone.place, state: place.state },
    learned: new Map(vehicles.map((each) => [each.record.id, keep(each)])),
  };
}

function answered(phone: Phone, said: Forecast) {
  const vehicle = fleet.vehicles.find(({ id }) => id === said.vehicleId);
  if (!vehicle || !yard) throw new Error("No such vehicle");
  return planDay(
    answerInputOf({
      yard,
      vehicle,
      rounds: fleet.rounds,
      shifts: fleet.shifts,
      skies: fleet.skies.filter((sky) => sky.date <= said.date),
      readings: fleet.readings,
      date: said.date,
      nowUtcMs: said.madeUtcMs,
      draws: DRAWS,
      learned: phone.learned.get(vehicle.id),
      placeLearned: phone.place ?? undefined,
    }),
  );
}

test("the app's looks, day after day, give the answers that the replay of the same log gives", () => {
  const { forecasts } = replay(file, { learn: "on", draws: DRAWS });
  const moments = [...new Set(forecasts.map(({ madeUtcMs }) => madeUtcMs))].sort((a, b) => a - b);
  let phone: Phone = { learned: new Map(), place: null };
  let worst = 0;
  let held = 0;
  for (const [n, madeUtcMs] of moments.entries()) {
    phone = look(phone, madeUtcMs, n % 3 !== 1); // looks that settle the days that are over, and looks that do not
    for (const said of forecasts.filter((each) => each.madeUtcMs === madeUtcMs)) {
      const answer = answered(phone, said);
      expect(answer.missing, `${said.vehicleId} ${said.date} ${said.when}`).toEqual(said.missing);
      for (const level of ["p05", "p10", "p50", "p90", "p95"] as const)
        worst = Math.max(worst, Math.abs(answer.home[level] - said.home[level]));
      held++;
    }
  }
  console.log(`${held} forecasts, furthest apart ${(100 * worst).toFixed(3)} % of a set`);
  expect(held).toBe(forecasts.length);
  expect(worst).toBeLessThan(0.01);
}, 120_000);

test("learned from the first day on at once, or day by day: the same", () => {
  const end = utcMsAt(plusDays(file.from ?? fleet.entries[0]?.date ?? "", DAYS - 2), 21 * 60, yard.zone);
  const once = look({ learned: new Map(), place: null }, end, true);
  let daily: Phone = { learned: new Map(), place: null };
  for (let at = end - (DAYS - 2) * 24 * HOUR_MS; at <= end; at += 24 * HOUR_MS) daily = look(daily, at, true);
  for (const { id } of fleet.vehicles) {
    const [a, b] = [once, daily].map((phone) => unpackVehicle(phone.learned.get(id)?.state ?? null));
    if (!a || !b) throw new Error("Nothing was learned");
    expect(a.days).toBe(b.days);
    for (const [i, mean] of a.belief.mean.entries()) expect(mean).toBeCloseTo(b.belief.mean[i] as number, 4);
  }
});

test("what is packed comes back, and what another version packed does not", () => {
  const vehicle = fleet.vehicles[0];
  if (!vehicle) throw new Error("No vehicle");
  const state = startLearning(vehicle);
  const back = unpackVehicle(packVehicle(state));
  if (!back) throw new Error("It did not come back");
  expect({ ...back, belief: null, dayScatter: null }).toEqual({ ...state, belief: null, dayScatter: null });
  for (const [k, each] of back.belief.cov.entries()) expect(each).toBeCloseTo(state.belief.cov[k] as number, 7);
  expect(packVehicle(back)).toBe(packVehicle(state));
  for (const broken of [
    "",
    "[]",
    "{}",
    packVehicle(state).replace('"days"', '"daze"'),
    packVehicle(state).slice(0, -9),
  ])
    expect(unpackVehicle(broken)).toBeNull();
});

test("a person's choice to leave what was learned aside brings back the answer without it", () => {
  const [said] = replay(file, { learn: "off", draws: DRAWS }).forecasts.slice(-1);
  if (!said) throw new Error("No forecast");
  const phone = look({ learned: new Map(), place: null }, said.madeUtcMs, true);
  const off = new Map([...phone.learned].map(([id, record]) => [id, { ...record, on: false }]));
  expect(answered({ ...phone, learned: off }, said).home).toEqual(said.home);
  expect(answered(phone, said).home).not.toEqual(said.home);
});
