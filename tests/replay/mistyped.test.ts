import { expect, test } from "vitest";
import { type Forecast, replay } from "../../src/cli/replay-run.js";
import type { Entry } from "../../src/records/index.js";
import { plusDays } from "../../src/units/zone.js";
import { simulateWorld } from "./simulate.js";

// One slip of the finger in one entry, everything else alike: the next answer moves by less than 3 %, the slip being put right by nobody.
const turned = (km: number): number => (km % 10) * 10 + Math.floor(km / 10);
const SLIPS: Readonly<Record<string, (entry: Entry) => Entry | null>> = {
  "a nought too many": (entry) => (entry.km === null ? null : { ...entry, km: Math.min(1000, 10 * entry.km) }),
  "a nought too few": (entry) => (entry.km === null ? null : { ...entry, km: Math.round(entry.km / 10) }),
  "figures turned round": (entry) =>
    entry.km === null || entry.km > 99 || turned(entry.km) === entry.km ? null : { ...entry, km: turned(entry.km) },
  "a tenth of the level": (entry) =>
    entry.level?.kind === "percent"
      ? { ...entry, level: { ...entry.level, value: Math.floor(entry.level.value / 10) } }
      : null,
  "ten times the units": (entry) => (entry.gridKwh ? { ...entry, gridKwh: 10 * entry.gridKwh } : null),
  "ten times the sun": (entry) => (entry.sunKwh ? { ...entry, sunKwh: 10 * entry.sunKwh } : null),
  "a tenth of the sun": (entry) => (entry.sunKwh ? { ...entry, sunKwh: entry.sunKwh / 10 } : null),
};

const DAYS = 14;
test.each(Object.entries(SLIPS))("%s moves the next answer by less than 3 %%", { timeout: 120_000 }, (_, slip) => {
  let tried = 0;
  for (const seed of [1, 2, 3]) {
    const { file } = simulateWorld({ seed, vehicles: 5, days: DAYS, mistypedShare: 0 });
    const date = plusDays(file.from as string, DAYS - 2);
    const next = plusDays(date, 1);
    const entries = file.fleet.entries.map((entry) => (entry.date === date ? (slip(entry) ?? entry) : entry));
    const answers = (fleet: typeof file.fleet): Forecast[] =>
      replay({ ...file, fleet }, { learn: "on", draws: 64 }).forecasts.filter((each) => each.date === next);
    const [right, wrong] = [answers(file.fleet), answers({ ...file.fleet, entries })];
    right.forEach((said, i) => {
      const after = wrong[i] as Forecast;
      const place = `seed ${seed}, ${said.vehicleId}, ${said.when}`;
      expect(Math.abs(after.driveWh.p50 / said.driveWh.p50 - 1), `drive, ${place}`).toBeLessThan(0.03);
      expect(Math.abs(after.sunWh.p50 / said.sunWh.p50 - 1), `sun, ${place}`).toBeLessThan(0.03);
      if (said.when === "morning")
        expect(Math.abs(after.lowest.p50 - said.lowest.p50), `lowest, ${place}`).toBeLessThan(0.03);
    });
    tried += entries.filter((entry, i) => entry !== file.fleet.entries[i]).length;
  }
  expect(tried).toBeGreaterThan(3);
});
