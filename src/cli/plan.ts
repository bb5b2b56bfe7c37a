import type { Band, DayAnswer, LegNote } from "../calc/day/answer.js";
import { planDay } from "../calc/day/plan-day.js";
import { socketsOnTheWay } from "../calc/day/shown.js";
import { checkFleet } from "../records/check-fleet.js";
import { readFleetFile } from "../records/fleet-file.js";
import type { Fleet, Vehicle, Yard } from "../records/index.js";
import { answerInputOf } from "../records/map/answer-input.js";
import { dateAsked } from "../records/map/next-shift.js";
import { plugsOf } from "../records/map/night-plugs.js";
import { civilDate, daysBetween, isCivilDate, minuteOfDay } from "../units/zone.js";
import { argsOf, instantOf, refuse, textOf } from "./args.js";

const MOST_DAYS_AHEAD = 14;
const USAGE = "npm run plan -- FILE [--at INSTANT] [--date DAY] [--json]";

/** One vehicle of the answer, as the JSON gives it. Changing a field's meaning needs a new format number. */
function vehicleJson(vehicle: Vehicle, date: string, answer: DayAnswer) {
  const { lines, segments, ...rest } = answer;
  const countsOnSockets = socketsOnTheWay(answer, answer.fromUtcMs);
  return { plate: vehicle.plate, name: vehicle.name, date, ...rest, countsOnSockets, lines, segments };
}

function answersOf(fleet: Fleet, nowUtcMs: number, date: string | undefined) {
  return fleet.vehicles
    .filter((vehicle) => vehicle.status === "working")
    .flatMap((vehicle) => {
      const yard = fleet.yards.find((each) => each.id === vehicle.yardId);
      if (!yard) return [];
      const asked = date ?? dateAsked({ yard, vehicle, rounds: fleet.rounds, shifts: fleet.shifts }, nowUtcMs);
      const learned = fleet.vehiclesLearned.find((one) => one.vehicleId === vehicle.id);
      const placeLearned = fleet.placesLearned.find((one) => one.yardId === yard.id);
      const nights = fleet.nights.filter((night) => night.yardId === yard.id);
      const plugs = plugsOf(vehicle, nights, { sockets: fleet.sockets, cuts: yard.cuts });
      const day = { ...fleet, yard, vehicle, date: asked, nowUtcMs, learned, placeLearned, plugs };
      const answer = planDay(answerInputOf(day));
      return [{ yard, vehicle, date: asked, answer }];
    });
}

const WORDS = { enough: "enough", tight: "tight", short: "short", notKnown: "not known" } as const;
const clock = (utcMs: number, yard: Yard): string => {
  const minutes = Math.round(minuteOfDay(utcMs, yard.zone));
  return `${String(Math.floor(minutes / 60) % 24).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
};
const DOUBTS = {
  voltsSayLittle: "volts say little for this set",
  notRested: "the set had not rested when it was read",
  outOfRange: "the reading is out of range",
} as const;
const WRONG = {
  noSuchRoad: () => "no road climbs so much on so few km",
  tooSteep: ({ payloadKg }: LegNote) => `too steep with ${Math.round(payloadKg)} kg on board, no gear holds it`,
  hot30min: () => "the motor gets hot, it needs a rest",
  slower: ({ speedKmh }: LegNote) => `no more than ${Math.floor(speedKmh)} km/h`,
} as const;

/** What a row cannot hold: legs that do not go as the round says, doubts about the reading, sockets that are counted on. */
function remarksOf({ legNotes, lateMinutes, readingDoubt, ...answer }: DayAnswer): string[] {
  const legs = new Set(legNotes.map((note) => `${note.label || `leg ${note.part + 1}`}: ${WRONG[note.problem](note)}`));
  return [
    ...legs,
    ...(lateMinutes >= 1 ? [`home ${Math.round(lateMinutes)} min later than the round says`] : []),
    ...(readingDoubt ? [DOUBTS[readingDoubt]] : []),
    ...socketsOnTheWay(answer, answer.fromUtcMs).map((name) => `counts on the socket at ${name || "a stop"}`),
  ].map((remark) => `       - ${remark}`);
}

const pct = (share: number): string => `${Math.round(100 * share)}%`;
const units = (wh: number): string => (wh / 1000).toFixed(2);
const kmText = (km: Band): string => `${km.p50.toFixed(0)} (${km.p10.toFixed(0)}..${km.p90.toFixed(0)})`;

function line({ yard, vehicle, date, answer }: ReturnType<typeof answersOf>[number]): string {
  const { topUp } = answer;
  const plug =
    topUp.code === "none" || topUp.latestPlugInUtcMs === null || !Number.isFinite(topUp.gridKwh)
      ? ""
      : `${topUp.gridKwh.toFixed(2)} by ${clock(topUp.latestPlugInUtcMs, yard)}`;
  const row = [
    vehicle.plate.padEnd(6),
    date,
    WORDS[answer.verdict].padEnd(10),
    `${pct(answer.chance)}`.padStart(5),
    `${pct(answer.lowest.p50)} at ${clock(answer.lowestAtUtcMs, yard)}`.padStart(14),
    kmText(answer.kmLeft).padStart(16),
    units(answer.book.sunTakenWh).padStart(6),
    units(answer.book.driveWh).padStart(6),
    `  ${answer.stuck ? "no plug helps: a leg is too steep" : topUp.code === "none" && topUp.sunDoesIt ? "the sun does it" : topUp.code}${plug ? ` ${plug}` : ""}`,
    answer.missing.length > 0 ? `  missing: ${answer.missing.join(", ")}` : "",
  ].join(" ");
  return [row, ...remarksOf(answer)].join("\n");
}

const { files, options } = argsOf(process.argv.slice(2), ["json"], ["at", "date"]);
const read = readFleetFile(textOf(files[0], USAGE));
if (!read.ok) refuse(`${files[0]} was not taken in. What stands in the way:`, read.problems);
const nowUtcMs = options.has("at") ? instantOf(options.get("at") ?? "") : Date.now();
const date = options.get("date");
if (date !== undefined && !isCivilDate(date)) refuse(`"${date}" is not a day. Write it as 2027-02-10.`);
for (const { where, code } of checkFleet(read.value).warnings) console.error(`odd: ${where}: ${code}`);
for (const { zone } of date === undefined ? [] : read.value.yards) {
  const ahead = daysBetween(civilDate(nowUtcMs, zone), date ?? "");
  if (ahead < -1 || ahead > MOST_DAYS_AHEAD)
    refuse(
      `${date} is ${ahead} days from the time of asking. A plan looks from yesterday to ${MOST_DAYS_AHEAD} days ahead; --at moves the asking.`,
    );
}
const answers = answersOf(read.value, nowUtcMs, date);
if (options.has("json")) {
  const vehicles = answers.map((each) => vehicleJson(each.vehicle, each.date, each.answer));
  console.log(JSON.stringify({ format: "noonplug-plan", version: 1, atUtcMs: nowUtcMs, vehicles }, null, 1));
} else {
  console.log("plate  day        verdict   chance  lowest          km left          sun  drive   top-up (units, by)");
  for (const each of answers) console.log(line(each));
}
