import { effect, untracked } from "@preact/signals";
import { forecastId } from "../records/ids.js";
import type { Forecast } from "../records/index.js";
import { saidOf } from "../records/map/lived.js";
import { HOUR_MS } from "../units/numbers.js";
import { civilDate, plusDays } from "../units/zone.js";
import { type Answered, answers } from "./answers.js";
import { openedStore } from "./shelf.js";
import { writeWorkedOut } from "./shelf-full.js";

/** Answers come one after the other: they are written together, when none has come for this long. */
const QUIET_MS = 3000;
/** An evening's answer that moved less than this is not written again. */
const MOVED_SHARE = 0.01;

let timer: ReturnType<typeof setTimeout> | undefined;
const waiting = new Map<string, Answered>();
const seen = new WeakSet<Answered>();
/** Kept on this day already, by id: the first of the day stays, the evening's changes when the answer does. */
const keptFirst = new Set<string>();
const keptEvening = new Map<string, number>();

/** Keeps what is forecast: for each vehicle and day the last of the evening before, and the first of the day itself. */
export function keepForecasts(): void {
  effect(() => {
    const all = answers.value;
    untracked(() => {
      for (const answered of all.values()) if (!seen.has(answered)) note(answered);
      if (waiting.size === 0) return;
      clearTimeout(timer);
      timer = setTimeout(() => void keepWaiting(), QUIET_MS);
    });
  });
}

function note(answered: Answered): void {
  seen.add(answered);
  const when = whenOf(answered);
  const { answer, case: asked } = answered;
  if (when === null || answer.verdict === "notKnown") return;
  const id = forecastId(asked.vehicle.id, asked.date);
  const level = answer.home.p50;
  if (when === "first" ? keptFirst.has(id) : Math.abs((keptEvening.get(id) ?? -9) - level) < MOVED_SHARE) return;
  waiting.set(`${id} ${when}`, answered);
}

/** On the evening before, or on the day before it is home again. */
function whenOf({ case: { date, yard, nowUtcMs }, answer }: Answered): "evening" | "first" | null {
  const today = civilDate(nowUtcMs, yard.zone);
  if (date === plusDays(today, 1)) return "evening";
  const home = answer.homeUtcMs ?? 0;
  return date === today && nowUtcMs < home - HOUR_MS ? "first" : null;
}

async function keepWaiting(): Promise<void> {
  const all = [...waiting.values()];
  waiting.clear();
  const store = await openedStore();
  const changed = new Map<string, Forecast>();
  for (const answered of all) {
    const { vehicle, date } = answered.case;
    const id = forecastId(vehicle.id, date);
    const found = changed.get(id) ?? (await before(store, id));
    const forecast = found ?? { id, v: 1 as const, vehicleId: vehicle.id, date, evening: null, first: null };
    const next = withAnswer(forecast, answered);
    if (next !== forecast) changed.set(id, next);
  }
  if (store !== (await openedStore()) || changed.size === 0) return;
  await writeWorkedOut([...changed.values()].map((put) => ({ kind: "forecast", put })));
}

async function before(store: Awaited<ReturnType<typeof openedStore>>, id: string): Promise<Forecast | null> {
  const found = await store.get("forecast", id);
  return found.ok ? found.value : null;
}

function withAnswer(forecast: Forecast, answered: Answered): Forecast {
  const { answer, case: asked } = answered;
  const said = saidOf(answer, Math.round(asked.nowUtcMs), asked.vehicle.learned?.days ?? 0);
  if (whenOf(answered) === "evening") {
    keptEvening.set(forecast.id, answer.home.p50);
    return { ...forecast, evening: said };
  }
  keptFirst.add(forecast.id);
  return forecast.first ? forecast : { ...forecast, first: said };
}
