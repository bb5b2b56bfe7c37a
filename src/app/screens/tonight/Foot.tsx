import type { NightRecord, Socket, Vehicle, Yard } from "../../../records/index.js";
import type { NightShown } from "../../../work/night-calls.js";
import { Key } from "../../parts/keys.js";
import { Say } from "../../parts/Say.js";
import { nowUtcMs } from "../../state.js";
import { tonightWords } from "../../words/tonight.js";
import { nightCalendar, nightTable } from "./night-export.js";
import { follow, isFollowed } from "./night-state.js";
import { saveText } from "./save-text.js";
import { proofLines } from "./say-night.js";

interface Of {
  readonly yard: Yard;
  readonly shown: NightShown;
  readonly record: NightRecord | null;
}

/** The plan becomes the one people follow: tomorrow's forecasts then count its slots, and new plans keep its promises. */
export function Follow({ yard, shown, record }: Of) {
  const words = tonightWords.now();
  if (shown.plan.sessions.length === 0 && !record) return <p class="night-note">{words.nobodyNeeds}</p>;
  if (record && isFollowed(record, shown)) return <p class="night-note">{words.followed(record.plan)}</p>;
  return (
    <div class="night-keys">
      <Key kind="main wide" onPress={() => follow(yard, shown, words.followedSays)}>
        {record ? words.followAgain : words.follow}
      </Key>
    </div>
  );
}

export function Proof({ yard, shown, bettering }: { yard: Yard; shown: NightShown; bettering: boolean }) {
  const words = tonightWords.now();
  return (
    <p class="night-proof">
      <Say text={proofLines(words, shown, yard).join(" ")} />
      {bettering && <span> {words.bettering}</span>}
    </p>
  );
}

/** The night as calendar entries and as a table. */
export function Exports(props: Of & { readonly sockets: readonly Socket[]; readonly vehicles: readonly Vehicle[] }) {
  const words = tonightWords.now();
  const name = `night-${props.shown.layout.date}`;
  const calendar = () =>
    saveText(`${name}.ics`, "text/calendar", nightCalendar({ ...props, nowUtcMs: nowUtcMs.value, words }));
  const table = () => saveText(`${name}.csv`, "text/csv", nightTable({ ...props, nowUtcMs: nowUtcMs.value, words }));
  return (
    <div class="night-keys">
      <Key onPress={calendar}>{words.calendar}</Key>
      <Key onPress={table}>{words.table}</Key>
    </div>
  );
}
