import { csvText, type Rows } from "../../../records/export/csv.js";
import { type CalendarEvent, calendarFile } from "../../../records/export/ical.js";
import type { NightRecord, Socket, Vehicle, Yard } from "../../../records/index.js";
import { shareAtKwh } from "../../../records/map/night-plan.js";
import { minuteOfDay } from "../../../units/zone.js";
import type { NightShown } from "../../../work/night-calls.js";
import { handOver } from "../../settings.js";
import { plain } from "../../words/format.js";
import type { TonightWords } from "../../words/tonight/en.js";
import { plateOfStay, socketName } from "./night-facts.js";

interface ExportGiven {
  readonly yard: Yard;
  readonly shown: NightShown;
  readonly record: NightRecord | null;
  readonly sockets: readonly Socket[];
  readonly vehicles: readonly Vehicle[];
  readonly nowUtcMs: number;
  readonly words: TonightWords;
}

/** One entry for each plug-in; the same visit keeps its name from plan to plan, and a later plan has a higher number. */
export function nightCalendar({ yard, shown, record, sockets, vehicles, nowUtcMs, words }: ExportGiven): string {
  const text = words.calendarText;
  const events = shown.plan.sessions.map((session): CalendarEvent => {
    const socket = socketName(sockets, session.socket);
    const before = shown.plan.sessions.find(
      (other) => other.socket === session.socket && other.unplugUtcMs === session.plugUtcMs,
    );
    const until = text.until(minuteOfDay(session.unplugUtcMs, yard.zone) / 60);
    return {
      uid: `${shown.layout.night.id}/${session.stay}@noonplug`,
      sequence: record?.plan ?? 0,
      fromUtcMs: session.plugUtcMs,
      toUtcMs: session.unplugUtcMs,
      summary: plain(text.summary(plateOfStay(shown, vehicles, session.stay), socket)),
      description: [
        ...(before ? [text.swap(plateOfStay(shown, vehicles, before.stay))] : []),
        until,
        words.cautions.plan,
      ].join("\n"),
      location: yard.name,
    };
  });
  return calendarFile(events, nowUtcMs);
}

const clockOf = (utcMs: number, yard: Yard): string => {
  const minutes = Math.round(minuteOfDay(utcMs, yard.zone));
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
};

/** Column of the money. */
const MONEY_COLUMN = 8;

/** The night as a table, without its money while the phone is lent out; plain digits and points whatever the screen's language. */
export function nightTable({ yard, shown, record, sockets, vehicles, words }: ExportGiven): string {
  const about = new Map(shown.layout.about.map((one) => [one.stayId, one]));
  const ticked = new Set((record?.done ?? []).filter(({ what }) => what === "unplugged").map(({ stayId }) => stayId));
  const rows: Rows = shown.walked.outcomes.map((one) => {
    const { session, stay } = one;
    const of = about.get(stay.id);
    const at = (utcMs: number | undefined) => (utcMs === undefined ? "" : clockOf(utcMs, yard));
    return [
      shown.layout.date,
      session ? socketName(sockets, session.socket) : "",
      plateOfStay(shown, vehicles, stay.id),
      at(session?.plugUtcMs),
      at(session?.startUtcMs),
      at(one.lastPowerUtcMs ?? session?.stopUtcMs),
      at(session?.unplugUtcMs),
      one.gridKwh.toFixed(2),
      one.money.toFixed(2),
      of ? String(Math.floor(100 * shareAtKwh(of, one.departKwh))) : "",
      one.short ? words.yes : words.no,
      ticked.has(stay.id) ? words.yes : words.no,
    ];
  });
  const table: Rows = [words.tableHead, ...rows];
  return csvText(handOver.value ? table.map((row) => row.filter((_, i) => i !== MONEY_COLUMN)) : table);
}
