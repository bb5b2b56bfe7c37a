import { argsOf, refuse, textOf } from "./args.js";
import { REPLAY_FORMAT, readReplayFile } from "./replay-file.js";
import { type Forecast, replay } from "./replay-run.js";
import { type Scores, score } from "./replay-score.js";

const USAGE = "npm run replay -- FILE [--json] [--learn on|off] [--from-day N]";
const SETTLED_DAY = 10;

const { files, options } = argsOf(process.argv.slice(2), ["json"], ["learn", "from-day"]);
const read = readReplayFile(textOf(files[0], USAGE));
if (!read.ok) refuse(`${files[0]} cannot be replayed. What stands in the way:`, read.problems);
const learn = options.get("learn") ?? "on";
if (learn !== "on" && learn !== "off") refuse(`--learn takes on or off, not "${learn}".`);
const fromDay = Number(options.get("from-day") ?? SETTLED_DAY);
if (!Number.isInteger(fromDay) || fromDay < 0) refuse(`--from-day takes a whole number of days.`);
const { forecasts, learned } = replay(read.value, { learn });
const scores = {
  evening: score(forecasts, read.value.truth, { when: "evening", fromDay }),
  morning: score(forecasts, read.value.truth, { when: "morning", fromDay }),
};
if (options.has("json"))
  console.log(JSON.stringify({ format: REPLAY_FORMAT, learn, fromDay, forecasts, learned, scores }, null, 1));
else show();

function show(): void {
  console.log("vehicle              day         verdict    chance  lowest 10/50/90 %     sun  drive  days");
  for (const each of forecasts.filter(({ when }) => when === "evening")) console.log(line(each));
  if (read.ok && read.value.truth.length === 0) console.log("No truth stands in the file: nothing to score against.");
  else for (const [when, of] of Object.entries(scores)) console.log(`${when} (from day ${fromDay}): ${told(of)}`);
}

function line({ vehicleId, date, verdict, chance, lowest, sunWh, driveWh, days, guess }: Forecast): string {
  const pct = (share: number) => `${Math.round(100 * share)}`.padStart(3);
  const units = (wh: number) => (wh / 1000).toFixed(2).padStart(6);
  const levels = `${pct(lowest.p10)} ${pct(lowest.p50)} ${pct(lowest.p90)}`;
  return `${vehicleId.padEnd(20)} ${date}  ${verdict.padEnd(9)} ${pct(chance)} %   ${levels}       ${units(sunWh.p50)} ${units(driveWh.p50)}  ${days}${guess ? " (a guess)" : ""}`;
}

function told(of: Scores): string {
  const shown = Object.entries(of).filter(([, value]) => value !== null);
  return shown.map(([name, value]) => `${name} ${Math.round((value as number) * 1e4) / 1e4}`).join(", ");
}
