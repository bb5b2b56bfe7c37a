import "./care.css";
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { CareItem, Span } from "../../../calc/battery/index.js";
import type { CareDone, Entry, Reading, Vehicle } from "../../../records/index.js";
import { type SetCare, setCareOf } from "../../../records/map/care.js";
import { answers } from "../../answers.js";
import { book, listed, vehicleOf, yardOf } from "../../fleet.js";
import { Caution } from "../../parts/Caution.js";
import { Key } from "../../parts/keys.js";
import { Page } from "../../parts/Page.js";
import { Say } from "../../parts/Say.js";
import type { ScreenProps } from "../../places.js";
import { handOver } from "../../settings.js";
import { openedStore } from "../../shelf.js";
import { here, nowUtcMs } from "../../state.js";
import { say } from "../../voice.js";
import { careWords } from "../../words/care.js";
import { joined, n, nAsIs, plain } from "../../words/format.js";
import { dayMonthYear, exactAmount, monthAndYear } from "../../words/money/amount.js";
import { useBooks } from "../money/books.js";
import { fairOf } from "../money/facts-model.js";
import { Done } from "./Done.js";

export const words = [careWords];

/** Which care does this set want, and how long will it last? `care/ID`; printed, it is a page of proof for a dealer. */
export function Screen({ params }: ScreenProps) {
  const told = careWords.now();
  const vehicle = vehicleOf(params.join("/"));
  const care = useCare(vehicle);
  if (!vehicle) return null;
  const first = care?.due[0];
  return (
    <Page
      title={told.title}
      sub={dayMonthYear(here.value.date)}
      plate={vehicle.plate}
      place="vehicles"
      above={`sheet/${vehicle.id}`}
      onSay={() => void say(first ? plain(joined(told.due[first.code], dueWord(first))) : told.title)}
      narrow
    >
      {care && (
        <article class="care">
          <Due vehicle={vehicle} care={care} />
          {vehicle.battery.chemistry !== "lfp" && <Done vehicle={vehicle} care={care} />}
          <Worked vehicle={vehicle} care={care} />
          <Lasts vehicle={vehicle} care={care} />
          {!handOver.value && <Paid vehicle={vehicle} />}
          <small>{told.basis}</small>
          <Caution id="set" text={told.manual} />
          <div class="acts no-print">
            <Key kind="main" onPress={() => print()}>
              {told.print}
            </Key>
          </div>
        </article>
      )}
    </Page>
  );
}

const FIRST_DAY = "2000-01-01";
const LAST_DAY = "2100-12-31";

interface CareLog {
  readonly entries: readonly Entry[];
  readonly readings: readonly Reading[];
  readonly cares: readonly CareDone[];
}

/** The whole log of the vehicle, read when the screen opens. */
function useCare(vehicle: Vehicle | undefined): SetCare | null {
  const [log, setLog] = useState<CareLog | null>(null);
  const id = vehicle?.id;
  const written = listed(book.value, "care");
  useEffect(() => {
    if (id === undefined) return;
    void openedStore().then(async (store) => {
      const [entries, readings, cares] = await Promise.all([
        store.history("entry", id, FIRST_DAY, LAST_DAY),
        store.history("reading", id, FIRST_DAY, LAST_DAY),
        store.history("care", id, FIRST_DAY, LAST_DAY),
      ]);
      if (entries.ok && readings.ok && cares.ok)
        setLog({ entries: entries.value.records, readings: readings.value.records, cares: cares.value.records });
    });
  }, [id, written]);
  const yard = vehicle && yardOf(vehicle);
  if (!vehicle || !yard || !log) return null;
  return setCareOf({ vehicle, yard, skies: listed(book.value, "sky"), ...log, nowUtcMs: nowUtcMs.value });
}

function dueWord({ dueInDays }: CareItem): string {
  const told = careWords.now();
  return dueInDays <= 0 ? told.now : told.inDays(Math.floor(dueInDays));
}

function Due({ vehicle, care }: { vehicle: Vehicle; care: SetCare }) {
  const told = careWords.now();
  const { chemistry } = vehicle.battery;
  return (
    <section>
      <h2>{told.dueTitle}</h2>
      <ul class="care-due">
        {care.due.map((item) => (
          <li key={item.code} class={item.dueInDays <= 0 ? "due-now" : ""}>
            <span>
              {told.due[item.code]}
              {item.code === "fullCharge" && care.daysSinceFull === null && <small>{told.noFull}</small>}
            </span>
            <Say text={dueWord(item)} />
          </li>
        ))}
      </ul>
      {chemistry === "floodedLead" && <p>{told.waterMonthly}</p>}
      <p>{told.rest}</p>
      {chemistry !== "lfp" && <p>{told.equalise}</p>}
    </section>
  );
}

const Fact = ({ word, children }: { word: string; children: ComponentChildren }) => (
  <>
    <dt>{word}</dt>
    <dd>{children}</dd>
  </>
);

function Worked({ vehicle, care }: { vehicle: Vehicle; care: SetCare }) {
  const told = careWords.now();
  const { installedOn, nominalV, ratedAh } = vehicle.battery;
  return (
    <section>
      <h2>{told.workedTitle}</h2>
      <dl>
        <Fact word={told.set}>
          <Say text={`${nAsIs(nominalV)} V, ${nAsIs(ratedAh)} Ah`} />
        </Fact>
        {installedOn !== null && <Fact word={told.installed}>{dayMonthYear(installedOn)}</Fact>}
        {care.from !== null && <Fact word={told.from}>{dayMonthYear(care.from)}</Fact>}
        <Fact word={told.logged}>
          <Say text={n(care.levelDays)} />
        </Fact>
        <Fact word={told.cycles}>
          <Say text={told.cyclesOf(care.cycles)} />
        </Fact>
        <Fact word={told.km}>
          <Say text={n(Math.floor(care.km))} />
        </Fact>
        {care.daysSinceFull !== null && (
          <Fact word={told.sinceFull}>
            <Say text={n(care.daysSinceFull)} />
          </Fact>
        )}
      </dl>
    </section>
  );
}

function Lasts({ vehicle, care }: { vehicle: Vehicle; care: SetCare }) {
  const told = careWords.now();
  const answer = answers.value.get(vehicle.id)?.answer;
  const newKm = answer && answer.whPerKm > 0 ? answer.usableWh / answer.whPerKm / vehicle.battery.health : null;
  const { health, life } = care;
  return (
    <section>
      <h2>{told.lastsTitle}</h2>
      {health === null ? (
        <p>{vehicle.battery.installedOn === null ? told.unknown : told.tooFew}</p>
      ) : (
        <>
          <dl>
            {newKm !== null && (
              <Fact word={told.less}>
                <Less newKm={newKm} health={health} />
              </Fact>
            )}
            {life && (
              <Fact word={told.replace}>
                {month(life.replaceOn.likely)}
                <small>{told.between(month(life.replaceOn.early), month(life.replaceOn.late))}</small>
              </Fact>
            )}
          </dl>
          <small>{care.healthFrom === "typed" ? told.byTyped : told.byAge}</small>
          {!life && <p>{told.tooFew}</p>}
        </>
      )}
    </section>
  );
}

const month = (date: string): string => monthAndYear(date.slice(0, 7));

/** What is missing is rounded up. */
function Less({ newKm, health }: { newKm: number; health: Span }) {
  const km = (share: number) => n(Math.ceil(newKm * (1 - share) - 1e-9));
  return (
    <>
      <Say text={km(health.likely)} />
      <small>
        <Say text={careWords.now().between(km(health.high), km(health.low))} />
      </small>
    </>
  );
}

/** Charges of the whole log that were paid on the spot, beside their units by the meter's tariff. */
function Paid({ vehicle }: { vehicle: Vehicle }) {
  const told = careWords.now();
  const books = useBooks([vehicle]);
  const [first] = books;
  const sums = fairOf(books, "");
  if (!first || !sums) return null;
  const exact = (minor: number) => exactAmount(minor, first.currency);
  return (
    <section>
      <h2>{told.paidTitle}</h2>
      <dl>
        <Fact word={told.paid}>{exact(sums.paidMinor)}</Fact>
        <Fact word={told.fair}>
          {exact(sums.fairMinor)}
          {sums.fairLowMinor !== sums.fairHighMinor && (
            <small>{told.between(exact(sums.fairLowMinor), exact(sums.fairHighMinor))}</small>
          )}
        </Fact>
      </dl>
    </section>
  );
}
