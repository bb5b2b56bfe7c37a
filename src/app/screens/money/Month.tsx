import { nextMonth } from "../../../calc/money/calendar.js";
import type { Sums } from "../../../calc/money/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { vehicleOf, vehicles } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { back } from "../../parts/icons.js";
import { Key } from "../../parts/keys.js";
import type { ScreenProps } from "../../places.js";
import { goInstead } from "../../router.js";
import { here } from "../../state.js";
import { core } from "../../words/core.js";
import { joined } from "../../words/format.js";
import { monthAndYear } from "../../words/money/amount.js";
import { moneyWords } from "../../words/money.js";
import { BringTable } from "./BringTable.js";
import { useBooks } from "./books.js";
import { filling } from "./cover.js";
import { DayTable, MonthsTable } from "./DayTable.js";
import { Facts } from "./Facts.js";
import { MoneyPage } from "./MoneyPage.js";
import { gapsOf, linesOfMonth, monthOfBooks, partsOf } from "./month-model.js";
import { Problems } from "./Problems.js";
import { Gaps, SavedLine, SumTable } from "./rows.js";
import { TableKeys } from "./TableKeys.js";

export const words = [moneyWords];

/** What did the month bring? Of one vehicle, or of all. */
export function Screen({ params }: ScreenProps) {
  const words = moneyWords.now();
  const [asked = "all", wanted] = params;
  const vehicle = vehicleOf(asked) ?? (vehicles.value.length === 1 ? vehicles.value[0] : undefined);
  const books = useBooks(vehicle ? [vehicle] : vehicles.value, { fill: filling.value });
  const month = wanted ?? here.value.date.slice(0, 7);
  const above = vehicle && vehicles.value.length > 1 ? `money/${vehicle.id}` : "money";
  return (
    <MoneyPage title={words.keys.month} sub={words.monthAsks} vehicle={vehicle ?? null} above={above}>
      <MonthPick who={asked} month={month} last={here.value.date.slice(0, 7)} />
      {monthOfBooks(books, month).map((row) => (
        <MonthBody key={row.currency} sums={row.sums} currency={row.currency} books={books} month={month} />
      ))}
      {books.length > 0 && monthOfBooks(books, month).length === 0 && <p class="m-facts">{words.noDays}</p>}
      <MonthsTable books={books} />
      {books[0] && <BringTable currency={books[0].currency} />}
    </MoneyPage>
  );
}

function MonthPick({ who, month, last }: { who: string; month: string; last: string }) {
  const words = core.now().keys;
  const show = (to: string) => goInstead(`money-month/${who}/${to}`);
  return (
    <div class="m-pick no-print">
      <button
        type="button"
        class="ib"
        aria-label={`${words.back}: ${monthAndYear(nextMonth(month, -1))}`}
        onClick={() => show(nextMonth(month, -1))}
      >
        <Icon of={back} />
      </button>
      <b aria-live="polite">{monthAndYear(month)}</b>
      <button
        type="button"
        class="ib"
        aria-label={monthAndYear(nextMonth(month))}
        disabled={month >= last}
        onClick={() => show(nextMonth(month))}
      >
        <span class="m-on">
          <Icon of={back} />
        </span>
      </button>
    </div>
  );
}

function MonthBody(props: {
  readonly sums: Sums;
  readonly currency: string;
  readonly books: readonly MoneyBook[];
  readonly month: string;
}) {
  const words = moneyWords.now();
  const { sums, currency, books, month } = props;
  const parts = partsOf(sums);
  const [one] = books;
  const single = books.length === 1 && one ? one : null;
  const lines = books.flatMap((book) => linesOfMonth(book, month));
  return (
    <>
      <section class="m-lines">
        <SavedLine
          word={words.energyOnly}
          likely={sums.fuelThen - sums.power}
          low={sums.energyLow}
          high={sums.energyHigh}
          currency={currency}
        />
        <SavedLine
          word={words.allInLong}
          likely={parts.reduce((sum, { minor }) => sum + minor, 0)}
          low={sums.allInLow}
          high={sums.allInHigh}
          currency={currency}
          big
        />
      </section>
      <Days sums={sums} />
      <Gaps gaps={gapsOf(lines)} />
      {single && <Problems problems={single.problems} vehicleId={single.vehicle.id} />}
      <SumTable
        caption={words.sumAllIn}
        parts={parts.map(({ part, minor }) => ({ word: words.parts[part], minor }))}
        sum={{ word: words.sumAllIn, minor: parts.reduce((sum, { minor }) => sum + minor, 0) }}
        currency={currency}
      />
      <Facts sums={sums} currency={currency} books={books} month={month} />
      {single && <DayTable lines={linesOfMonth(single, month)} currency={currency} />}
      <TableKeys books={books} month={month} />
    </>
  );
}

/** Days of every kind, in words, and the wish to fill the missing ones. */
function Days({ sums }: { sums: Sums }) {
  const words = moneyWords.now();
  const said = [
    words.counted(sums.countedDays),
    sums.filledDays > 0 && words.filledDays(sums.filledDays),
    sums.missingDays > 0 && words.missingDays(sums.missingDays),
    sums.openDays > 0 && words.openDays(sums.openDays),
    sums.offRoadDays > 0 && words.offRoadDays(sums.offRoadDays),
  ].filter((text) => text !== false);
  return (
    <div class="m-facts">
      <p>{joined(...said)}</p>
      {(sums.missingDays > 0 || filling.value) && (
        <>
          <small>{filling.value ? words.filled : words.missingStayOut}</small>
          <Key onPress={() => (filling.value = !filling.value)}>{filling.value ? words.leaveOut : words.fill}</Key>
        </>
      )}
    </div>
  );
}
