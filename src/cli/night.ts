import { writeFileSync } from "node:fs";
import type { Night, Score } from "../calc/yard/night.js";
import { type NightAnswer, planNight } from "../calc/yard/plan-night.js";
import { readFleetFile } from "../records/fleet-file.js";
import type { Fleet } from "../records/index.js";
import { nightLayoutOf } from "../records/map/night.js";
import { readNightFile } from "../records/night-file.js";
import { seedOf } from "../units/dice.js";
import type { Problem } from "../units/outcome.js";
import { argsOf, instantOf, refuse, textOf } from "./args.js";
import { LEAVES_OUT, sentenceOf } from "./night-words.js";

const USAGE = "npm run night -- FILE [--seconds N] [--out FILE] [--json] [--seed N] [--yard ID] [--at INSTANT]";
const USUAL_SECONDS = 8;
/** A night is answered so soon after the start of the program, bundling and reading included, unless more seconds are asked for. */
const WHOLE_MS = 9000;

const { files, options } = argsOf(process.argv.slice(2), ["json"], ["seconds", "out", "seed", "yard", "at"]);
const seconds = Number(options.get("seconds") ?? USUAL_SECONDS);
if (!(seconds > 0)) refuse(`"${options.get("seconds")}" is not a number of seconds above 0.`);
const { night, problems } = nightOf(parsed(textOf(files[0], USAGE)));
const answer = planNight(night, {
  seed: Number(options.get("seed") ?? seedOf(night.id)),
  clockMs: () => performance.now(),
  budgetMs: Math.min(seconds * 1000, Math.max(WHOLE_MS, seconds * 1000) - performance.now()),
});
const found = [...problems, ...answer.problems];
for (const problem of found) console.error(sentenceOf(problem, night));
console.error(summary(answer));
const { plan, ...proof } = answer;
// with --json the same plan, a checker may read either, and beside it what is proven
const written = JSON.stringify(options.has("json") ? { ...plan, ...proof, problems: found } : plan, null, 1);
const out = options.get("out");
if (out) writeFileSync(out, `${JSON.stringify(plan, null, 1)}\n`);
if (!out || options.has("json")) console.log(written);
process.exitCode = found.some(({ code }) => LEAVES_OUT.has(code)) ? 2 : 0;

function parsed(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (why) {
    return refuse(`${files[0]} is not JSON: ${why instanceof Error ? why.message : ""}`);
  }
}

function nightOf(raw: unknown): { readonly night: Night; readonly problems: readonly Problem[] } {
  const format = typeof raw === "object" && raw !== null ? (raw as { format?: unknown }).format : undefined;
  if (format === "noonplug-fleet") return nightOfFleet(raw);
  const read = readNightFile(raw);
  if (read.ok) return read.value;
  for (const problem of read.problems) console.error(sentenceOf(problem, null));
  return refuse(`${files[0]} holds no night that can be planned.`);
}

function nightOfFleet(raw: unknown): { readonly night: Night; readonly problems: readonly Problem[] } {
  const read = readFleetFile(raw);
  if (!read.ok) return refuse(`${files[0]} was not taken in. What stands in the way:`, read.problems);
  const laid = nightLayoutOf(caseOf(read.value));
  if (!laid.ok) return refuse(`The night of ${files[0]} cannot be laid out:`, laid.problems);
  return laid.value;
}

/** The yard asked for, or the first; its vehicles with all they have. */
function caseOf(fleet: Fleet): Parameters<typeof nightLayoutOf>[0] {
  const yard = options.has("yard") ? fleet.yards.find(({ id }) => id === options.get("yard")) : fleet.yards[0];
  if (!yard) return refuse(`${files[0]} has no yard${options.has("yard") ? ` "${options.get("yard")}"` : ""}.`);
  return {
    yard,
    sockets: fleet.sockets.filter(({ yardId }) => yardId === yard.id),
    vehicles: fleet.vehicles.filter(({ yardId }) => yardId === yard.id),
    rounds: fleet.rounds,
    shifts: fleet.shifts,
    skies: fleet.skies,
    readings: fleet.readings,
    nowUtcMs: options.has("at") ? instantOf(options.get("at") ?? "") : Date.now(),
    followed: null,
  };
}

function summary({ score, bounds }: NightAnswer): string {
  const each = (Object.entries(score) as [keyof Score, number][]).map(
    ([aim, value]) => `${aim} ${Math.round(value * 100) / 100}`,
  );
  const more = score.short - bounds.short;
  const served = more === 0 ? "Nobody else could be served (proved)." : `At most ${more} more could perhaps be served.`;
  return `${each.join(" | ")}\n${served} ${moneyWords(score.money, bounds.money)}`;
}

function moneyWords(money: number, least: number | null): string {
  if (least === null) return "";
  if (money - least < 0.01) return "Money: the least possible (proved).";
  const above = least > 0 ? (100 * (money - least)) / least : Number.POSITIVE_INFINITY;
  return above > 20 ? "" : `Money: at most ${above.toFixed(1)} % above the least possible.`;
}
