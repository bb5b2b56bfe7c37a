import { nextMonth } from "../../../calc/money/calendar.js";
import { type Gap, type Sums, valueOn } from "../../../calc/money/index.js";
import type { Vehicle } from "../../../records/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { vehicleOf, vehicles, yards } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { back } from "../../parts/icons.js";
import { Key } from "../../parts/keys.js";
import type { ScreenProps } from "../../places.js";
import { goInstead } from "../../router.js";
import { openedStore } from "../../shelf.js";
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
import { type Fair, fairOf, type GridFactor } from "./facts-model.js";
import { MoneyPage } from "./MoneyPage.js";
import { gapsOf, linesOfMonth, monthOfBooks, monthsOfBooks, partsOf, rowsOfMonths } from "./month-model.js";
import { Problems } from "./Problems.js";
import { Gaps, Reckoning, SavedLine, SumTable } from "./rows.js";
import { useFleetSums } from "./sums/fleet-sums.js";
import { booksLines, type LinesOf, TableKeys } from "./TableKeys.js";

export const words = [moneyWords];

/** Missing days of a whole yard are filled by reading every day of it: for so many vehicles at most. */
const FEW = 50;

/** What did the month bring? Of one vehicle, or of all. */
export function Screen({ params }: ScreenProps) {
  const words = moneyWords.now();
  const [asked = "all", wanted] = params;
  const vehicle = vehicleOf(asked) ?? (vehicles.value.length === 1 ? vehicles.value[0] : undefined);
  const month = wanted ?? here.value.date.slice(0, 7);
  const above = vehicle && vehicles.value.length > 1 ? `money/${vehicle.id}` : "money";
  const byDays = vehicle !== undefined || (filling.value && vehicles.value.length <= FEW);
  return (
    <MoneyPage title={words.keys.month} sub={words.monthAsks} vehicle={vehicle ?? null} above={above}>
      <MonthPick who={asked} month={month} last={here.value.date.slice(0, 7)} />
      {byDays ? <OfBooks of={vehicle ? [vehicle] : vehicles.value} month={month} /> : <OfSums month={month} />}
    </MoneyPage>
  );
}

/** The month out of the days of some vehicles, filled where that is wished. */
function OfBooks({ of, month }: { of: readonly Vehicle[]; month: string }) {
  const books = useBooks(of, { fill: filling.value });
  const [first] = books;
  if (!first) return null;
  const single = books.length === 1 ? first : null;
  const now = monthOfBooks(books, month);
  return (
    <>
      {now.map((row) => (
        <MonthBody
          key={row.currency}
          sums={row.sums}
          currency={row.currency}
          gaps={gapsOf(books.flatMap((book) => linesOfMonth(book, month)))}
          fair={fairOf(books, month)}
          grid={valueOn(first.terms.grid, here.value.date)}
          single={single}
          month={month}
        />
      ))}
      <Table month={month} linesOf={async () => booksLines(books, month)} shown={now.length > 0} />
      <MonthsTable rows={monthsOfBooks(books)} />
      <BringTable currency={first.currency} />
    </>
  );
}

/** The month of all out of the sums that were made beforehand. */
function OfSums({ month }: { month: string }) {
  const found = useFleetSums(true);
  if (typeof found === "number") return <Reckoning share={found} />;
  const rows = rowsOfMonths(found.months);
  const now = rows.filter(({ key }) => key === month);
  const heads = found.months.heads.filter((head) => head.month === month);
  const [yard] = yards.value;
  return (
    <>
      {now.map((row) => (
        <MonthBody
          key={row.currency}
          sums={row.sums}
          currency={row.currency}
          gaps={[...new Set(heads.flatMap(({ gaps }) => gaps))]}
          fair={heads.find(({ fair }) => fair && fair.judged > 0)?.fair ?? null}
          grid={yard?.grid ? { ...yard.grid, year: String(yard.grid.year) } : null}
          single={null}
          month={month}
        />
      ))}
      <Table month={month} linesOf={() => linesOfAll(month)} shown={now.length > 0} />
      <MonthsTable rows={rows} />
      <BringTable currency={found.list[0]?.currency ?? yard?.currency ?? ""} />
    </>
  );
}

async function linesOfAll(month: string) {
  const [{ fleetLines }, store] = await Promise.all([import("./sums/lines.js"), openedStore()]);
  return fleetLines(store, here.value.date, month);
}

function Table(props: { readonly month: string; readonly linesOf: LinesOf; readonly shown: boolean }) {
  return props.shown ? (
    <TableKeys linesOf={props.linesOf} month={props.month} />
  ) : (
    <p class="m-facts">{moneyWords.now().noDays}</p>
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
  readonly gaps: readonly Gap[];
  readonly fair: Fair | null;
  readonly grid: GridFactor | null;
  readonly single: MoneyBook | null;
  readonly month: string;
}) {
  const words = moneyWords.now();
  const { sums, currency, gaps, fair, grid, single, month } = props;
  const parts = partsOf(sums);
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
      <Days sums={sums} mayFill={single !== null || vehicles.value.length <= FEW} />
      <Gaps gaps={gaps} />
      {single && <Problems problems={single.problems} vehicleId={single.vehicle.id} />}
      <SumTable
        caption={words.sumAllIn}
        parts={parts.map(({ part, minor }) => ({ word: words.parts[part], minor }))}
        sum={{ word: words.sumAllIn, minor: parts.reduce((sum, { minor }) => sum + minor, 0) }}
        currency={currency}
      />
      <Facts sums={sums} currency={currency} fair={fair} grid={grid} lease={leaseNow(single, month)} />
      {single && <DayTable lines={linesOfMonth(single, month)} currency={currency} />}
    </>
  );
}

/** How the lease stands; of the running month alone. */
const leaseNow = (book: MoneyBook | null, month: string): MoneyBook["lease"] =>
  book && month === here.value.date.slice(0, 7) ? book.lease : null;

/** Days of every kind, in words, and the wish to fill the missing ones. */
function Days({ sums, mayFill }: { sums: Sums; mayFill: boolean }) {
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
          {mayFill && (
            <Key onPress={() => (filling.value = !filling.value)}>{filling.value ? words.leaveOut : words.fill}</Key>
          )}
        </>
      )}
    </div>
  );
}
