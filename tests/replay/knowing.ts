import { PARTS, type Part } from "../../src/calc/learn/parts.js";
import { type Forecast, type ReplayOptions, replay } from "../../src/cli/replay-run.js";
import type { OtherWorld } from "./other-world.js";

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Knows the slow truth of a fleet that was made by other means: the mean of the whole truth over what nominal figures say of it. */
export function knowingOther(world: OtherWorld, draws: number): NonNullable<ReplayOptions["know"]> {
  const { fleet, truth } = world.file;
  const nominal = replay(world.file, { learn: "off", draws }).forecasts.filter(({ when }) => when === "morning");
  const said = new Map(nominal.map((each) => [`${each.vehicleId} ${each.date}`, each]));
  const driverOf = new Map(fleet.shifts.map((shift) => [`${shift.vehicleId} ${shift.date}`, shift.driver]));
  const over = (vehicleId: string, driver: string) =>
    mean(
      truth
        .filter((day) => day.vehicleId === vehicleId && driverOf.get(`${vehicleId} ${day.date}`) === driver)
        .map((day) => Math.log((day.driveWh as number) / forecastOf(said, day).driveWh.p50)),
    );
  const roof = (vehicleId: string) => {
    const days = truth.filter((day) => day.vehicleId === vehicleId);
    return Math.log(
      mean(days.map((day) => day.sunWh as number)) / mean(days.map((day) => forecastOf(said, day).sunWh.mean)),
    );
  };
  const parts = new Map(
    fleet.vehicles.map((vehicle): [string, Partial<Record<Part, number>>] => {
      const slow = world.slow.get(vehicle.id);
      const volts = vehicle.gauge.kind === "volts";
      const [a, b] = [over(vehicle.id, "a"), over(vehicle.id, "b")];
      return [
        vehicle.id,
        {
          drive: a,
          driverB: b - a,
          roof: roof(vehicle.id),
          capacity: Math.log((slow?.health ?? 1) / vehicle.battery.health),
          charger: -Math.log(slow?.meter ?? 1),
          gaugeOffset: volts ? 0 : (slow?.gaugeOffset ?? 0),
          gaugeScale: volts ? 0 : Math.log(slow?.gaugeScale ?? 1),
        },
      ];
    }),
  );
  return (learned) => {
    const { mean: held, cov } = learned.belief;
    const known = parts.get(learned.vehicleId) ?? {};
    return {
      ...learned,
      drivers: ["a", "b"],
      belief: {
        mean: PARTS.map((part, i) => (part === "level" ? (held[i] as number) : (known[part] ?? 0))),
        cov: cov.map((c, k) => (k === cov.length - 1 ? c : 0)),
      },
      dayScatter: { days: 1000, sumSquares: 1000 * 0.075 ** 2 },
      kmHabit: { days: 1000, sumSquares: 1000 * 0.05 ** 2, middleLog: 0 },
      misses: [],
    };
  };
}

const forecastOf = (
  said: ReadonlyMap<string, Forecast>,
  day: { readonly vehicleId: string; readonly date: string },
): Forecast => said.get(`${day.vehicleId} ${day.date}`) as Forecast;
