import "../edit/edit.css";
import { useEffect, useState } from "preact/hooks";
import type { LegNote } from "../../../calc/day/answer.js";
import { checkRecord } from "../../../records/check.js";
import { type Round, type RoundPart, readRecord, type Vehicle, type Yard } from "../../../records/index.js";
import { dateAsked } from "../../../records/map/next-shift.js";
import type { CivilDate } from "../../../units/zone.js";
import { current } from "../../answers.js";
import { book, keep, listed, newId, roundOf, shiftOn, trouble, vehicles, yardOf } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { road, trip } from "../../parts/icons.js";
import { Key, WayKey } from "../../parts/keys.js";
import { Page } from "../../parts/Page.js";
import type { ScreenProps } from "../../places.js";
import { go, goBack, goInstead } from "../../router.js";
import { readSteadily } from "../../shelf.js";
import { nowUtcMs } from "../../state.js";
import { tellDone } from "../../undo.js";
import { editWords } from "../../words/edit.js";
import { figures } from "../../words/format.js";
import { roundsWords } from "../../words/rounds.js";
import { cross, plus } from "../edit/drawings.js";
import { Note } from "../edit/FieldRow.js";
import { leavesFull, Preview } from "../edit/Preview.js";
import { fullCase } from "../edit/preview-case.js";
import { problemText } from "../edit/problem-text.js";
import { NameRow } from "../edit/rows.js";
import { useAnswer } from "../edit/useAnswer.js";
import { yardHere } from "../edit/yard-here.js";
import { draftOf, dropDraft, setDraft } from "./drafts.js";
import { loadsAfter, moved, newStop, newWay } from "./new-parts.js";
import { PartRow } from "./PartRow.js";
import { Profile } from "./Profile.js";
import { startRound } from "./Rounds.js";
import { type PartsSource, SOURCES } from "./sources.js";
import { roundSum } from "./sum.js";

export const words = [editWords, roundsWords];

/** Where does it go? `round/ID`; `round/new` begins one. The draft outlives the page until it is kept. */
export function Screen({ params }: ScreenProps) {
  const id = params.join("/");
  const round = draftOf(id) ?? roundOf(id);
  if (id === "new") return <Begin />;
  return round ? <Editor round={round} /> : <Gone />;
}

function Begin() {
  const yard = yardHere();
  useEffect(() => {
    if (yard) goInstead(`round/${startRound(yard)}`);
  }, [yard]);
  return null;
}

/** Vehicles of the yard, those with this usual round first, the one that is spoken of before all. */
function likelyVehicles(round: Round): Vehicle[] {
  const rank = (vehicle: Vehicle) =>
    (vehicle.usual.roundId === round.id ? 0 : 2) + (vehicle.id === current.value?.id ? 0 : 1);
  return vehicles.value.filter((vehicle) => vehicle.yardId === round.yardId).sort((a, b) => rank(a) - rank(b));
}

function dayOf(vehicle: Vehicle, yard: Yard): CivilDate {
  const { round: rounds = [], shift: shifts = [] } = book.value;
  return dateAsked({ yard, vehicle, rounds, shifts }, nowUtcMs.value);
}

function Editor({ round }: { round: Round }) {
  const [nth, setNth] = useState(0);
  const [open, setOpen] = useState<number | null>(null);
  const some = likelyVehicles(round);
  const vehicle = some[nth % Math.max(1, some.length)];
  const yard = vehicle && yardOf(vehicle);
  const hasWay = round.parts.some((part) => part.kind === "leg" && part.km > 0);
  const date = vehicle && yard ? dayOf(vehicle, yard) : "";
  const asked =
    vehicle && yard && hasWay
      ? fullCase({ vehicle, yard, round, date, shift: shiftOn(vehicle.id, date), skies: listed(book.value, "sky") })
      : null;
  const answered = useAnswer(asked, `${vehicle?.id} ${date} ${JSON.stringify(round.parts)}`);
  const words = roundsWords.now();
  const edit = editWords.now().preview;
  return (
    <Page title={round.name} sub={roundSum(round)} place="vehicles" above="rounds" narrow foot={<Foot round={round} />}>
      <Preview
        asked={asked}
        answered={answered}
        says={asked ? leavesFull(asked) : ""}
        empty={vehicle ? edit.noRound : edit.noVehicle}
        onOther={some.length > 1 ? () => setNth(nth + 1) : undefined}
      />
      <Late minutes={answered?.answer.lateMinutes ?? 0} />
      <Parts round={round} vehicle={vehicle} notes={answered?.answer.legNotes ?? []} open={open} onOpen={setOpen} />
      <Adding round={round} yard={yard} onOpen={setOpen} />
      {asked && <Profile asked={asked} />}
      <NameRow title={words.name} name={round.name} onName={(name) => setDraft({ ...round, name })} />
      <Others round={round} />
    </Page>
  );
}

const LATE_MINUTES = 3;
function Late({ minutes }: { minutes: number }) {
  if (minutes < LATE_MINUTES) return null;
  return <Note>{roundsWords.now().note.late(figures(Math.round(minutes)))}</Note>;
}

function Parts(props: {
  readonly round: Round;
  readonly vehicle: Vehicle | undefined;
  readonly notes: readonly LegNote[];
  readonly open: number | null;
  readonly onOpen: (n: number | null) => void;
}) {
  const { round, vehicle, open, onOpen } = props;
  const { parts } = round;
  const words = editWords.now();
  const fullKg = vehicle?.fullLoadKg ?? 300;
  const startKg = fullKg * { empty: 0, half: 0.5, full: 1 }[vehicle?.usual.loadClass ?? "half"];
  const loads = loadsAfter(parts, startKg);
  const put = (next: readonly RoundPart[]) => setDraft({ ...round, parts: next });
  const withPart = (n: number, part: RoundPart) => parts.map((old, i) => (i === n ? part : old));
  const refuses = (n: number, part: RoundPart) => {
    const seen = readRecord("round", { ...round, parts: withPart(n, part) });
    return seen.ok ? null : problemText(words, seen.problems[0] ?? { code: "other", where: "" });
  };
  const warnings = checkRecord("round", round).warnings;
  return (
    <ol class="parts">
      {parts.map((part, n) => (
        <PartRow
          // a part keeps its row while it is edited; moving opens the row it moved to
          key={`${n}${part.kind}${parts.length}`}
          n={n}
          part={part}
          last={n === parts.length - 1}
          open={open === n}
          note={props.notes.find((note) => note.part === n)}
          odd={[
            ...warnings.filter((warning) => warning.where.startsWith(`parts.${n}.`)),
            ...((loads[n]?.missingKg ?? 0) > 1 ? [{ code: "unloadsMoreThanThere", where: `parts.${n}` }] : []),
          ]}
          fullKg={fullKg}
          afterKg={loads[n]?.kg ?? 0}
          refuses={(changed) => refuses(n, changed)}
          onChange={(changed) => put(withPart(n, changed))}
          onOpen={() => onOpen(open === n ? null : n)}
          onMove={(by) => {
            put(moved(parts, n, by));
            onOpen(n + by);
          }}
          onDrop={() => {
            put(parts.filter((_, i) => i !== n));
            onOpen(null);
            tellDone({ says: roundsWords.now().goneBack, undo: () => putBack(round, n, part) });
          }}
        />
      ))}
    </ol>
  );
}

function Adding(props: {
  readonly round: Round;
  readonly yard: Yard | undefined;
  readonly onOpen: (n: number) => void;
}) {
  const { round, yard, onOpen } = props;
  const words = roundsWords.now();
  const [source, setSource] = useState<PartsSource | null>(null);
  const add = (part: RoundPart) => {
    setDraft({ ...round, parts: [...round.parts, part] });
    onOpen(round.parts.length);
  };
  return (
    <>
      <div class="acts adding">
        <Key onPress={() => add(newWay(round.parts))}>
          <Icon of={plus} size={20} />
          {words.addWay}
        </Key>
        <Key onPress={() => add(newStop(words.stop))}>
          <Icon of={plus} size={20} />
          {words.addStop}
        </Key>
        {yard &&
          SOURCES.map((each) => (
            <Key key={each.word()} onPress={() => setSource(each)}>
              <Icon of={each.icon} size={22} />
              {each.word()}
            </Key>
          ))}
      </div>
      {source && yard && (
        <source.Ask
          yard={yard}
          onClose={() => setSource(null)}
          onParts={(parts, name) => {
            setSource(null);
            setDraft({ ...round, parts, ...(name ? { name } : {}) });
          }}
        />
      )}
    </>
  );
}

/** A copy, and the end of a round. */
function Others({ round }: { round: Round }) {
  const words = roundsWords.now();
  const kept = roundOf(round.id);
  const near = listed(book.value, "shift").filter((shift) => shift.roundId === round.id).length;
  const [far, setFar] = useState(0);
  const days = Math.max(near, far);
  const remove = async () => {
    const all = await daysWith(round); // the app holds the near days only
    if (all > 0) setFar(all);
    else await removeRound(round);
  };
  const copy = () => {
    const made = { ...round, id: newId(), name: words.copyName(round.name) };
    setDraft(made);
    go(`round/${made.id}`);
  };
  return (
    <div class="ways spaced">
      <WayKey icon={trip} title={words.copy} onPress={copy} />
      <Key kind="way" waitsFor={kept && days > 0 ? words.stays(days) : null} onPress={remove}>
        <Icon of={cross} size={26} />
        <span class="what">
          <b>{words.remove}</b>
        </span>
      </Key>
    </div>
  );
}

/** Days on which a kept round is set, of all time. */
async function daysWith({ id }: Round): Promise<number> {
  if (!roundOf(id)) return 0;
  const all = await readSteadily((from) => from.list("shift"));
  return all.ok ? all.value.records.filter(({ roundId }) => roundId === id).length : 1;
}

/** One part comes back to its place; what was changed since stays. */
function putBack({ id }: Round, n: number, part: RoundPart): void {
  const now = draftOf(id) ?? roundOf(id);
  if (now) setDraft({ ...now, parts: [...now.parts.slice(0, n), part, ...now.parts.slice(n)] });
}

async function removeRound(round: Round): Promise<void> {
  const words = roundsWords.now();
  const users = vehicles.value.filter((vehicle) => vehicle.usual.roundId === round.id);
  const freed = () =>
    vehicles.value
      .filter((vehicle) => vehicle.usual.roundId === round.id)
      .map((vehicle) => ({
        kind: "vehicle" as const,
        put: { ...vehicle, usual: { ...vehicle.usual, roundId: null } },
      }));
  const says = [words.removed(round.name), users.length > 0 ? words.wasUsual(users.length) : ""].join(" ").trim();
  const drops = roundOf(round.id) ? [{ kind: "round" as const, drop: round.id }] : [];
  if (!(await keep(() => [...freed(), ...drops], says))) return;
  dropDraft(round.id);
  goBack("rounds");
}

/** Keeps the draft, says why it cannot be kept, or waits for a change. */
function Foot({ round }: { round: Round }) {
  const words = roundsWords.now();
  const edit = editWords.now();
  const [refused, setRefused] = useState<string | null>(null);
  const draft = draftOf(round.id);
  const kept = roundOf(round.id);
  const keepIt = async () => {
    const seen = readRecord("round", round);
    const errors = seen.ok ? checkRecord("round", seen.value).errors : seen.problems;
    const first = errors[0];
    if (first) return setRefused(problemText(edit, first));
    setRefused(null);
    if (await keep([{ kind: "round", put: round }], words.kept)) dropDraft(round.id);
    else setRefused(problemText(edit, trouble.value ?? { code: "storageFailed", where: "" }));
  };
  return (
    <footer class="round-foot">
      {refused && (
        <Note>
          <b>{edit.notKept}</b> {refused}
        </Note>
      )}
      <div class={`acts foot ${draft && kept ? "two" : ""}`}>
        <Key kind="main" waitsFor={draft ? null : words.nothingChanged} onPress={() => keepIt()}>
          {words.keep}
        </Key>
        {draft && kept && <Key onPress={() => dropDraft(round.id)}>{words.asItWas}</Key>}
      </div>
    </footer>
  );
}

function Gone() {
  const words = roundsWords.now();
  return (
    <Page title={words.one} place="vehicles" above="rounds">
      <div class="empty">
        <Icon of={road} size={72} />
        <p>{words.gone}</p>
        <Key kind="main" onPress={() => go("rounds")}>
          {words.title}
        </Key>
      </div>
    </Page>
  );
}
