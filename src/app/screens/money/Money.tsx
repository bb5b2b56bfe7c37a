import type { Vehicle } from "../../../records/index.js";
import { vehicleOf, vehicles } from "../../fleet.js";
import { Key } from "../../parts/keys.js";
import { LongList } from "../../parts/LongList.js";
import { Plate } from "../../parts/Plate.js";
import { Say } from "../../parts/Say.js";
import type { ScreenProps } from "../../places.js";
import { go } from "../../router.js";
import { here } from "../../state.js";
import { say } from "../../voice.js";
import { dayShort, plain } from "../../words/format.js";
import { roughAmount } from "../../words/money/amount.js";
import type { MoneyWords } from "../../words/money/en.js";
import { moneyWords } from "../../words/money.js";
import { useBooks } from "./books.js";
import { type DayShown, spokenDay, twoDays } from "./day-model.js";
import { MoneyPage } from "./MoneyPage.js";
import { rowsOfMonths } from "./month-model.js";
import { Problems } from "./Problems.js";
import { Gaps, Reckoning, SavedLine } from "./rows.js";
import { useFleetSums } from "./sums/fleet-sums.js";
import type { FleetSums, ListRow } from "./sums/rows.js";

export const words = [moneyWords];

/** Did the day beat fuel? One vehicle, or a list of all with the whole on top. */
export function Screen({ params }: ScreenProps) {
  const all = vehicles.value;
  const [asked] = params;
  const vehicle = asked ? vehicleOf(asked) : all.length === 1 ? all[0] : undefined;
  return vehicle ? <OneVehicle vehicle={vehicle} /> : <AllVehicles all={all} />;
}

/** The verdict of a day against fuel, all in. */
function headline(words: MoneyWords, day: DayShown, currency: string): string {
  if (day.state === "none" || day.state === "missing") return words.nothingWritten;
  if (day.state === "open") return words.openDay;
  const { likely } = day.allIn;
  if (likely === 0) return words.even;
  const amount = roughAmount(Math.abs(likely), currency, likely > 0 ? "down" : "near");
  return likely > 0 ? words.beat(amount) : words.lost(amount);
}

function OneVehicle({ vehicle }: { vehicle: Vehicle }) {
  const words = moneyWords.now();
  const [book] = useBooks([vehicle]);
  const today = here.value.date;
  if (!book)
    return (
      <MoneyPage title={words.title} sub={words.question} vehicle={vehicle}>
        {null}
      </MoneyPage>
    );
  const days = twoDays(book, today);
  const spoken = spokenDay(days);
  const title = headline(words, spoken, book.currency);
  const speak = () => void say(plain(`${dayShort(spoken.date)}. ${title}.`));
  return (
    <MoneyPage title={words.title} sub={words.question} vehicle={vehicle} onSay={speak}>
      <section class={`m-head ${spoken.allIn.likely < 0 ? "m-loss" : ""}`}>
        <small>{spoken === days[1] ? words.today : words.yesterday}</small>
        <h2>
          <Say text={title} />
        </h2>
      </section>
      <TwoDays days={days} currency={book.currency} />
      <Gaps gaps={[...new Set(days.flatMap((day) => day.gaps))]} />
      <Problems problems={book.problems} vehicleId={vehicle.id} />
      <Ways id={vehicle.id} />
    </MoneyPage>
  );
}

/** Yesterday beside today: four rows, two of them the lines that always stand together. */
function TwoDays({ days, currency }: { days: readonly [DayShown, DayShown]; currency: string }) {
  const words = moneyWords.now();
  const names = [words.yesterday, words.today];
  const cell = (day: DayShown, pick: (day: DayShown) => string) =>
    day.state === "counted" || day.state === "rest" || day.state === "offRoad" ? (
      <Say text={pick(day)} />
    ) : (
      words.noMoney
    );
  const amount = (pick: (day: DayShown) => number, towards: "down" | "near") => (day: DayShown) =>
    roughAmount(pick(day), currency, towards);
  const range = (pick: (day: DayShown) => { low: number; high: number }) => (day: DayShown) =>
    words.from(roughAmount(pick(day).low, currency, "down"), roughAmount(pick(day).high, currency, "down"));
  const line = (word: string, pick: (day: DayShown) => DayShown["allIn"]) => (
    <tr class="m-saved">
      <th scope="row">{word}</th>
      {days.map((day) => (
        <td key={day.date} class={pick(day).likely < 0 ? "m-loss" : ""}>
          <b>
            {cell(
              day,
              amount((each) => pick(each).likely, "down"),
            )}
          </b>
          {day.state === "counted" && <small>{cell(day, range(pick))}</small>}
        </td>
      ))}
    </tr>
  );
  return (
    <table class="m-two">
      <caption class="aside">{words.question}</caption>
      <thead>
        <tr>
          <td />
          {days.map((day, i) => (
            <th key={day.date} scope="col">
              {names[i]}
              <small>{under(words, day)}</small>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        <tr>
          <th scope="row">{words.fuelThen}</th>
          {days.map((day) => (
            <td key={day.date}>
              {cell(
                day,
                amount((each) => each.fuelThen, "near"),
              )}
            </td>
          ))}
        </tr>
        <tr>
          <th scope="row">{words.powerNow}</th>
          {days.map((day) => (
            <td key={day.date}>
              {cell(
                day,
                amount((each) => each.power, "near"),
              )}
            </td>
          ))}
        </tr>
        {line(words.energyOnly, (day) => day.energy)}
        {line(words.allIn, (day) => day.allIn)}
      </tbody>
    </table>
  );
}

function under(words: MoneyWords, day: DayShown): string {
  switch (day.state) {
    case "counted":
      return plain(words.unitsKm(day.units, day.km));
    case "open":
      return words.openDay;
    case "offRoad":
      return words.offRoad;
    case "rest":
      return words.rest;
    default:
      return words.missingDay;
  }
}

function Ways({ id }: { id: string }) {
  const { keys } = moneyWords.now();
  return (
    <div class="m-ways">
      <Key kind="main" onPress={() => go(`money-month/${id}`)}>
        {keys.month}
      </Key>
      <Key onPress={() => go(`payback/${id}`)}>{keys.payback}</Key>
      <Key onPress={() => go(`report/${id}`)}>{keys.report}</Key>
      <Key onPress={() => go(`money-figures/${id}`)}>{keys.figures}</Key>
      <Key onPress={() => go(`money-account/${id}`)}>{keys.account}</Key>
    </div>
  );
}

function AllVehicles({ all }: { all: readonly Vehicle[] }) {
  const words = moneyWords.now();
  const found = useFleetSums(true);
  const month = here.value.date.slice(0, 7);
  return (
    <MoneyPage title={words.title} sub={words.question} narrow={false}>
      {typeof found === "number" ? <Reckoning share={found} /> : <List all={all} found={found} month={month} />}
    </MoneyPage>
  );
}

/** Above so many vehicles only the rows near the glass are drawn, all of one height. */
const MANY = 40;
const ROW_REM = 6;
const remPx = (): number => Number.parseFloat(getComputedStyle(document.documentElement).fontSize);

function List({ all, found, month }: { all: readonly Vehicle[]; found: FleetSums; month: string }) {
  const words = moneyWords.now();
  const plates = new Map(all.map(({ id, plate }) => [id, plate]));
  const vehicleRow = (row: ListRow) => <VehicleRow key={row.id} row={row} plate={plates.get(row.id) ?? ""} />;
  const rows = [...found.list].sort((a, b) => (a.allIn ?? 0) - (b.allIn ?? 0));
  return (
    <>
      {rowsOfMonths(found.months)
        .filter(({ key }) => key === month)
        .map((row) => (
          <section key={row.currency} class="m-lines">
            <SavedLine
              word={`${words.keys.month}: ${words.energyOnly}`}
              likely={row.energyOnly}
              low={row.sums.energyLow}
              high={row.sums.energyHigh}
              currency={row.currency}
            />
            <SavedLine
              word={words.allIn}
              likely={row.allIn}
              low={row.sums.allInLow}
              high={row.sums.allInHigh}
              currency={row.currency}
              big
            />
          </section>
        ))}
      <div class="m-ways">
        <Key kind="main" onPress={() => go("money-month/all")}>
          {words.keys.month}
        </Key>
        <Key onPress={() => go("report/all")}>{words.keys.report}</Key>
      </div>
      <h2 class="m-title">{words.vehicleByVehicle}</h2>
      {rows.length > MANY ? (
        <div class="m-long">
          <LongList items={rows} rowPx={ROW_REM * remPx()} row={vehicleRow} />
        </div>
      ) : (
        <ul class="m-list">{rows.map(vehicleRow)}</ul>
      )}
    </>
  );
}

function VehicleRow({ row, plate }: { readonly row: ListRow; readonly plate: string }) {
  const words = moneyWords.now();
  const { days, allIn, currency } = row;
  return (
    <li>
      <Key kind="way" onPress={() => go(`money/${row.id}`)}>
        <Plate number={plate} size="s" />
        <span class="what">
          <b>
            <Say text={headline(words, spokenDay(days), currency)} />
          </b>
          <span>{spokenDay(days) === days[1] ? words.today : words.yesterday}</span>
        </span>
        <span class={`brings ${(allIn ?? 0) < 0 ? "m-loss" : ""}`}>
          {allIn === null ? words.noMoney : <Say text={roughAmount(allIn, currency, "down")} />}
          <small>{words.keys.month}</small>
        </span>
      </Key>
    </li>
  );
}
