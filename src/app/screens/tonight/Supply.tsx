import "./tonight.css";
import { useEffect, useState } from "preact/hooks";
import type { NightRecord, Yard } from "../../../records/index.js";
import { nightRecordOf } from "../../../records/map/night-plan.js";
import { HOUR_MS } from "../../../units/numbers.js";
import { minuteOfDay } from "../../../units/zone.js";
import { askNight } from "../../../work/night-call.js";
import type { NightShown } from "../../../work/night-calls.js";
import { book, keep, vehicles, yards } from "../../fleet.js";
import { Caution } from "../../parts/Caution.js";
import { Key, KeyRow } from "../../parts/keys.js";
import { Page } from "../../parts/Page.js";
import { Plate } from "../../parts/Plate.js";
import { Say } from "../../parts/Say.js";
import type { ScreenProps } from "../../places.js";
import { goBack } from "../../router.js";
import { nowUtcMs } from "../../state.js";
import { tonightWords } from "../../words/tonight.js";
import { plateOfStay, type VehicleNight, vehicleNights } from "./night-facts.js";
import { caseOfYard, planTonight, readyOf, recordOf, toFollow } from "./night-state.js";

const HOURS = [1, 2, 4, 8];
const BUDGET_MS = 800;

export const words = [tonightWords];

/** Supply lost for so many hours: who suffers, who is first back on? */
export function Screen({ params }: ScreenProps) {
  const words = tonightWords.now().supply;
  const yard = yards.value.find(({ id }) => id === params[0]) ?? yards.value[0];
  const [hours, setHours] = useState<number | null>(null);
  const fromUtcMs = useState(() => Date.now())[0];
  useEffect(() => {
    if (yard) planTonight(yard);
  }, [yard]);
  const shown = yard ? readyOf(yard.id) : null;
  const drill = useDrill(yard, shown, hours === null ? null : { fromUtcMs, toUtcMs: fromUtcMs + hours * HOUR_MS });
  if (!yard) return null;
  const own = vehicles.value.filter(({ yardId }) => yardId === yard.id);
  const back = fromUtcMs + (hours ?? 0) * HOUR_MS;
  return (
    <Page title={words.title} sub={yard.name} place="tonight" above={`tonight/${yard.id}`} narrow>
      <Caution text={tonightWords.now().cautions.supply} />
      <div class="ask">
        <h2>
          {words.asks}
          {hours !== null && (
            <small>
              <Say text={words.backAt(minuteOfDay(back, yard.zone) / 60)} />
            </small>
          )}
        </h2>
        <KeyRow
          asks={words.asks}
          choices={HOURS.map((value) => ({ value, word: words.hours(value), figure: true }))}
          chosen={hours}
          onPick={setHours}
        />
      </div>
      {shown && (
        <div class="drill">
          <ShortColumn title={words.before} nights={vehicleNights(own, shown)} />
          {hours !== null &&
            (drill ? (
              <ShortColumn title={words.after} nights={vehicleNights(own, drill)} />
            ) : (
              <p>{tonightWords.now().bettering}</p>
            ))}
        </div>
      )}
      {shown && drill && <After yard={yard} shown={shown} drill={drill} span={{ fromUtcMs, toUtcMs: back }} />}
    </Page>
  );
}

interface Lost {
  readonly fromUtcMs: number;
  readonly toUtcMs: number;
}

const withCut = (record: NightRecord, span: Lost): NightRecord => ({
  ...record,
  events: [...record.events, { kind: "supplyLost", atUtcMs: span.fromUtcMs, ...span }],
});

/** The night planned anew around a cut that begins now; what has begun stays, promises are kept where they can be. */
function useDrill(yard: Yard | undefined, shown: NightShown | null, span: Lost | null): NightShown | null {
  const [drill, setDrill] = useState<NightShown | null>(null);
  const toUtcMs = span?.toUtcMs ?? null;
  useEffect(() => {
    setDrill(null);
    if (!yard || !shown || !span) return;
    const abort = new AbortController();
    const given = { ...caseOfYard(book.value, yard, nowUtcMs.value), followed: withCut(toFollow(yard, shown), span) };
    askNight({ given, budgetMs: BUDGET_MS, signal: abort.signal, onShare: () => {}, onBetter: setDrill })
      .then((outcome) => {
        if (outcome.ok) setDrill(outcome.value);
      })
      .catch((problem: unknown) => {
        if (!abort.signal.aborted) throw problem;
      });
    return () => abort.abort();
  }, [yard?.id, toUtcMs, shown === null]);
  return drill;
}

function ShortColumn({ title, nights }: { title: string; nights: readonly VehicleNight[] }) {
  const words = tonightWords.now().supply;
  const short = nights.filter(({ state }) => state === "short");
  return (
    <section>
      <h2>{title}</h2>
      <p class="plates">
        {short.map(({ vehicle }) => (
          <Plate key={vehicle.id} number={vehicle.plate} size="s" />
        ))}
        {short.length === 0 && words.nobody}
      </p>
    </section>
  );
}

const FIRST_BACK = 6;

function After({ yard, shown, drill, span }: { yard: Yard; shown: NightShown; drill: NightShown; span: Lost }) {
  const words = tonightWords.now().supply;
  const own = vehicles.value.filter(({ yardId }) => yardId === yard.id);
  const old = new Map(shown.plan.sessions.map((session) => [session.stay, session]));
  const moved = drill.plan.sessions.filter((session) => {
    const before = old.get(session.stay);
    return (
      !before ||
      before.socket !== session.socket ||
      before.plugUtcMs !== session.plugUtcMs ||
      before.unplugUtcMs !== session.unplugUtcMs
    );
  });
  const first = drill.plan.sessions
    .filter((session) => session.stopUtcMs > span.toUtcMs)
    .sort((a, b) => a.startUtcMs - b.startUtcMs)
    .slice(0, FIRST_BACK);
  const accept = () => {
    const at = nowUtcMs.value;
    const record = () =>
      nightRecordOf(drill.layout, drill.plan, {
        walked: drill.walked,
        yardId: yard.id,
        nowUtcMs: at,
        before: withCut(recordOf(book.value, yard, at) ?? toFollow(yard, shown), span),
      });
    return keep(() => [{ kind: "night", put: record() }], words.accepted).then(
      (kept) => kept && goBack(`tonight/${yard.id}`),
    );
  };
  return (
    <section class="drill-after">
      <h2>{words.first}</h2>
      <p class="plates">
        {first.map((session) => (
          <Plate key={session.stay} number={plateOfStay(drill, own, session.stay)} size="s" />
        ))}
        {first.length === 0 && words.nobody}
      </p>
      <p>
        <Say text={words.moved(moved.length)} />
      </p>
      <Key kind="main wide" onPress={accept}>
        {words.accept}
      </Key>
    </section>
  );
}
