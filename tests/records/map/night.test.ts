import { describe, expect, test } from "vitest";
import { refill, storeModel } from "../../../src/calc/battery/index.js";
import { demoFleets } from "../../../src/records/demo/index.js";
import type { Fleet, NightRecord, Vehicle, Yard } from "../../../src/records/index.js";
import { batteryOf } from "../../../src/records/map/battery.js";
import { type NightCase, nightLayoutOf, nightWindowOf } from "../../../src/records/map/night.js";
import { meterScaleOf } from "../../../src/records/map/night-units.js";

const TODAY = "2027-02-10";
const EVENING = Date.UTC(2027, 1, 10, 17, 30); // 20:30 at the yard
const fleet = demoFleets.quay(TODAY, EVENING);

const caseOf = (from: Fleet, more: Partial<NightCase> = {}): NightCase => ({
  yard: from.yards[0] as Yard,
  sockets: from.sockets,
  vehicles: from.vehicles,
  rounds: from.rounds,
  shifts: from.shifts,
  skies: from.skies,
  readings: from.readings,
  nowUtcMs: EVENING,
  followed: null,
  draws: 64,
  ...more,
});
const laid = (given: NightCase) => {
  const outcome = nightLayoutOf(given);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};
const codes = (given: NightCase) => laid(given).problems.map(({ code, where }) => `${code} ${where}`);
const vehicle = (plate: string) => fleet.vehicles.find((one) => one.plate === plate) as Vehicle;
const followed = (more: Partial<NightRecord>): NightRecord => ({
  id: `old-quay/${TODAY}`,
  v: 1,
  yardId: "old-quay",
  date: TODAY,
  plan: 1,
  madeUtcMs: EVENING,
  sessions: [],
  shortIds: [],
  done: [],
  events: [],
  ...more,
});

describe("the night's hours", () => {
  // Clock changes of Berlin 2027: IANA time zone database.
  test.each([
    ["2027-02-10", 24],
    ["2027-03-27", 23],
    ["2027-10-30", 25],
  ])("from ten to ten of %s are %i h", (date, hours) =>
    expect(nightWindowOf(date, "Europe/Berlin").slotCount).toBe(hours * 4),
  );
});

describe("units on the meter", () => {
  test("agree with the charging calculation between any two levels", () => {
    for (const plate of ["01", "05"]) {
      const store = storeModel(batteryOf(vehicle(plate)), 20);
      const { charger } = vehicle(plate);
      const scale = meterScaleOf(store, charger);
      for (const [from, to] of [
        [0, 1],
        [0.2, 0.8],
        [0.75, 0.97],
      ] as const) {
        const charged = refill(store, charger, { from, to }).gridWh / 1000;
        expect(scale.kwhAt(to) - scale.kwhAt(from)).toBeCloseTo(charged, 2);
      }
      expect(scale.shareAt(scale.kwhAt(0.63))).toBeCloseTo(0.63, 6);
      expect(scale.chargerKw).toBeCloseTo(charger.ratedW / charger.efficiency / 1000, 9);
    }
  });
  test("the acceptance is concave, from empty to full, and lead-acid takes little at the end", () => {
    const scale = meterScaleOf(storeModel(batteryOf(vehicle("05")), 20), vehicle("05").charger);
    const points = scale.acceptance ?? [];
    expect(points[0]?.levelKwh).toBe(0);
    expect(points.at(-1)?.levelKwh).toBeCloseTo(scale.fullKwh, 9);
    const slopes = points
      .slice(1)
      .map((point, i) => (point.kw - (points[i]?.kw ?? 0)) / (point.levelKwh - (points[i]?.levelKwh ?? 0)));
    expect(slopes).toEqual([...slopes].sort((a, b) => b - a));
    expect(points.at(-1)?.kw).toBeLessThan(0.3 * (points[0]?.kw ?? 0));
  });
  test("a lithium set below freezing takes nothing", () =>
    expect(meterScaleOf(storeModel(batteryOf(vehicle("01")), -5), vehicle("01").charger).acceptance).toBeNull());
});

describe("a yard's night", () => {
  test("holds every working vehicle once, inside the night, on the grid, and levels within the set", () => {
    const { night, about, problems } = laid(caseOf(fleet));
    expect(problems).toEqual([]);
    expect(night.stays.map((stay) => stay.id)).toEqual(
      fleet.vehicles.filter((one) => one.status === "working").map((one) => one.id),
    );
    expect(about.map((one) => one.stayId)).toEqual(night.stays.map((stay) => stay.id));
    for (const stay of night.stays) {
      expect(stay.arriveUtcMs).toBeGreaterThanOrEqual(EVENING);
      expect(stay.departUtcMs).toBeGreaterThan(stay.arriveUtcMs);
      expect((stay.arriveUtcMs - night.startUtcMs) % 900_000).toBe(0);
      expect((stay.departUtcMs - night.startUtcMs) % 900_000).toBe(0);
      expect(stay.arriveKwh).toBeGreaterThanOrEqual(0);
      expect(stay.arriveKwh).toBeLessThanOrEqual(stay.fullKwh);
    }
  });
  test("plans a vehicle whose gauge nobody read with the worse guess, and says so", () => {
    const unreadFleet = { ...fleet, readings: fleet.readings.filter((reading) => reading.vehicleId !== "quay-11") };
    const { night, about } = laid(caseOf(unreadFleet));
    const unread = about.filter((one) => one.levelFrom === "worseGuess");
    expect(unread.map((one) => one.vehicleId)).toEqual(["quay-11"]);
    expect(unread[0]?.arriveShare).toBeLessThan(0.45);
    expect(night.stays.find((stay) => stay.id === "quay-11")?.needKwh).toBeGreaterThan(0);
  });
  test("a longer round asks for more units; a round beyond a full set asks for more than it holds", () => {
    const longer = (by: number) => ({
      ...fleet,
      rounds: fleet.rounds.map((round) => ({
        ...round,
        parts: round.parts.map((part) =>
          part.kind === "leg" ? { ...part, km: part.km * by, minutes: part.minutes * by } : part,
        ),
      })),
    });
    const wants = (by: number) => {
      const stay = laid(caseOf(longer(by))).night.stays.find((one) => one.id === "quay-05");
      return {
        want: (stay?.needKwh ?? 0) + (stay?.safeKwh ?? 0),
        beyond: (stay?.arriveKwh ?? 0) + (stay?.needKwh ?? 0) > (stay?.fullKwh ?? 0),
      };
    };
    expect(wants(0.8).want).toBeGreaterThan(wants(0.6).want);
    expect(wants(1.15).want).toBeCloseTo(wants(1).want, 9); // even a full set leaves a bad day short: full it is for both
    expect(wants(1).beyond).toBe(false);
    expect(wants(3).beyond).toBe(true);
  });
  test("asked while a vehicle is out, it comes home at the level of its forecast", () => {
    const noon = Date.UTC(2027, 1, 10, 8); // 11:00 at the yard
    const early = demoFleets.quay(TODAY, Date.UTC(2027, 1, 10, 2, 30));
    const { about } = laid(caseOf(early, { nowUtcMs: noon }));
    const late = about.find((one) => one.vehicleId === "quay-12" || one.vehicleId === "quay-06");
    expect(late?.levelFrom).toBe("forecast");
  });
  test("two shifts on a day make two visits, the midday one before the second shift", () => {
    const shift = (n: number, leaveMinute: number, date: string) => ({
      id: `quay-09/${date}/${n}`,
      v: 1 as const,
      vehicleId: "quay-09",
      roundId: "short",
      date,
      leaveMinute,
      loadKg: 100,
      loadClass: "half" as const,
      driver: null,
    });
    const two = { ...fleet, shifts: [shift(1, 300, TODAY), shift(2, 1020, TODAY), shift(1, 360, "2027-02-11")] };
    const now = Date.UTC(2027, 1, 10, 7, 30); // 10:30 at the yard
    const stays = laid(caseOf(two, { nowUtcMs: now })).night.stays.filter((stay) => stay.id.startsWith("quay-09"));
    expect(stays.map((stay) => stay.id)).toEqual(["quay-09", "quay-09/2"]);
    expect(stays[0]?.departUtcMs).toBe(Date.UTC(2027, 1, 10, 14));
  });
});

describe("what stands in the way is named with its place, and the rest is planned", () => {
  const yard = fleet.yards[0] as Yard;
  test("no limit, a base load that fills it, a zone nobody knows", () => {
    expect(codes(caseOf(fleet, { yard: { ...yard, siteLimitKw: null } }))).toContain("noMeterLimit yard.siteLimitKw");
    const full = { ...yard, baseLoadKwByHour: yard.baseLoadKwByHour.map((kw, hour) => (hour === 19 ? 9 : kw)) };
    expect(codes(caseOf(fleet, { yard: full }))).toEqual(["baseLoadFillsLimit yard.baseLoadKwByHour.19"]);
    expect(nightLayoutOf(caseOf(fleet, { yard: { ...yard, zone: "Mars/Base" } })).ok).toBe(false);
  });
  test("a plug that fits no socket, a socket that fits nobody, a vehicle without a round", () => {
    const odd = {
      ...fleet,
      vehicles: fleet.vehicles.map((one) =>
        one.plate === "02"
          ? { ...one, charger: { ...one.charger, plug: "big round" } }
          : one.plate === "03"
            ? { ...one, usual: { ...one.usual, roundId: null } }
            : one,
      ),
      sockets: fleet.sockets.map((one) => (one.name === "5" ? { ...one, plug: "sea plug" } : one)),
    };
    const found = codes(caseOf(odd));
    expect(found).toContain("noSocketFits vehicles.quay-02.charger.plug");
    expect(found).toContain("socketFitsNobody sockets.quay-s5.plug");
    expect(found).toContain("noRound vehicles.quay-03.usual.roundId");
    expect(laid(caseOf(odd)).night.stays.map((stay) => stay.id)).not.toContain("quay-03");
  });
  test("a shift that would leave before the last one is home leaves then, and is named", () => {
    const shift = (n: number, leaveMinute: number) => ({
      id: `quay-04/2027-02-11/${n}`,
      v: 1 as const,
      vehicleId: "quay-04",
      roundId: "hotels",
      date: "2027-02-11",
      leaveMinute,
      loadKg: null,
      loadClass: "full" as const,
      driver: null,
    });
    expect(codes(caseOf({ ...fleet, shifts: [shift(1, 300), shift(2, 360)] }))).toEqual([
      "leavesBeforeHome vehicles.quay-04.shifts.2027-02-11",
    ]);
  });
});

describe("what turned out otherwise", () => {
  const event = { atUtcMs: EVENING };
  test("a late vehicle comes later, a dead charger fits no socket, a dead socket is gone, lost supply is a cut", () => {
    const late = EVENING + 2 * 3_600_000;
    const { night } = laid(
      caseOf(fleet, {
        followed: followed({
          events: [
            { ...event, kind: "cameLate", vehicleId: "quay-01", untilUtcMs: late },
            { ...event, kind: "chargerDead", vehicleId: "quay-02" },
            { ...event, kind: "socketDead", socketId: "quay-s3" },
            { ...event, kind: "supplyLost", fromUtcMs: EVENING, toUtcMs: late },
          ],
        }),
      }),
    );
    expect(night.stays.find((stay) => stay.id === "quay-01")?.arriveUtcMs).toBe(late);
    expect(night.stays.find((stay) => stay.id === "quay-02")?.plugs).toEqual([]);
    expect(night.sockets.map((socket) => socket.id)).not.toContain("quay-s3");
    expect(night.site.cuts).toEqual([{ fromUtcMs: EVENING, toUtcMs: late }]);
  });
  test("a session that has begun stays in the plan with its vehicle's arrival before it", () => {
    const begun = { stayId: "quay-05", vehicleId: "quay-05", socketId: "quay-s1", toShare: 1 };
    const at = EVENING - 3_600_000;
    const session = { ...begun, plugUtcMs: at, startUtcMs: at, stopUtcMs: at + 7_200_000, unplugUtcMs: at + 7_200_000 };
    const { night } = laid(caseOf(fleet, { followed: followed({ sessions: [session] }) }));
    const stay = night.stays.find((one) => one.id === "quay-05");
    expect(stay?.arriveUtcMs).toBeLessThanOrEqual(at);
    expect(night.published?.sessions).toHaveLength(1);
  });
  describe("a gauge read while the vehicle hangs on its socket", () => {
    const plugUtcMs = EVENING - 2 * 3_600_000;
    const hangs = (plate: string) => {
      const { id } = vehicle(plate);
      const untilUtcMs = EVENING + 3 * 3_600_000;
      const times = { plugUtcMs, startUtcMs: plugUtcMs, stopUtcMs: untilUtcMs, unplugUtcMs: untilUtcMs };
      return followed({ sessions: [{ stayId: id, vehicleId: id, socketId: "quay-s1", toShare: 1, ...times }] });
    };
    const reading = (plate: string, kind: "percent" | "volts", value: number, atUtcMs = EVENING - 1_800_000) => ({
      id: "read-late",
      v: 1 as const,
      vehicleId: vehicle(plate).id,
      atUtcMs,
      kind,
      value,
      restedMin: 0,
      perBlock: false,
    });
    const arriveKwh = (plate: string, ...more: ReturnType<typeof reading>[]) => {
      const from = { ...fleet, readings: [...fleet.readings, ...more] };
      const { night, about } = laid(caseOf(from, { followed: hangs(plate) }));
      const { id } = vehicle(plate);
      return {
        kwh: night.stays.find((stay) => stay.id === id)?.arriveKwh ?? Number.NaN,
        from: about.find((one) => one.stayId === id)?.levelFrom,
      };
    };
    // By hand: below the knee a charger gives its full power, so 75 % after an hour and a half is 75 % before it less 1.5 h x kW.
    test("is reckoned back to the level at plugging in", () => {
      const { charger } = vehicle("01");
      const scale = meterScaleOf(storeModel(batteryOf(vehicle("01")), 20), charger);
      const kw = Math.min(scale.chargerKw, fleet.sockets.find(({ id }) => id === "quay-s1")?.limitKw ?? 0);
      const read = arriveKwh("01", reading("01", "percent", 75));
      const before = arriveKwh("01", reading("01", "percent", 75, plugUtcMs - 60_000));
      // the gauge's own doubt is clipped a little differently near both ends
      expect(Math.abs(read.kwh - (before.kwh - 1.5 * kw))).toBeLessThan(0.1);
      expect(read.from).toBe("reading");
      expect(read.kwh).not.toBeCloseTo(arriveKwh("01").kwh, 1);
    });
    test("volts under charge are passed over", () =>
      expect(arriveKwh("05", reading("05", "volts", 54)).kwh).toBe(arriveKwh("05").kwh));
  });
});
