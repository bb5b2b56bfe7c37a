import { minorPerMajor } from "../../../calc/money/currency.js";
import { allIn, type DayLine, energyOnly, type MoneyRow } from "../../../calc/money/index.js";
import { dayAndMonth, figures, joined } from "../../words/format.js";
import { exactAmount, monthAndYear } from "../../words/money/amount.js";
import { moneyWords } from "../../words/money.js";
import { Drawing } from "./Drawing.js";
import type { Picture } from "./picture.js";

/** Every day of a month with its two lines; days nobody wrote stay, empty. */
export function DayTable({ lines, currency }: { lines: readonly DayLine[]; currency: string }) {
  const words = moneyWords.now();
  if (lines.length === 0) return null;
  const per = minorPerMajor(currency) ?? 1;
  const value = (line: DayLine) => (line.counted ? allIn(line.sums) / per : null);
  const picture: Picture = {
    says: `${words.dayByDay}: ${words.allIn}`,
    labels: lines.map(({ date }) => figures(Number(date.slice(8, 10)))),
    series: [{ word: words.allIn, kind: "bars", look: "ink", values: lines.map(value) }],
  };
  return (
    <>
      <h2 class="m-title">{words.dayByDay}</h2>
      <Drawing picture={picture} />
      <div class="m-scroll">
        <table class="m-table">
          <caption class="aside">{words.dayByDay}</caption>
          <thead>
            <tr>
              <th scope="col">{words.date}</th>
              <th scope="col">{words.km}</th>
              <th scope="col">{words.energyOnly}</th>
              <th scope="col">{words.allIn}</th>
            </tr>
          </thead>
          <tbody>
            {lines.map((line) => (
              <DayRow key={line.date} line={line} />
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function DayRow({ line }: { line: DayLine }) {
  const words = moneyWords.now();
  const { sums, currency } = line;
  const day = <th scope="row">{dayAndMonth(line.date)}</th>;
  if (!line.counted)
    return (
      <tr class="m-out">
        {day}
        <td colSpan={3}>{line.state === "missing" ? words.missingDay : words.openDay}</td>
      </tr>
    );
  const still = line.state === "offRoad" ? words.offRoad : line.state === "rest" ? words.rest : null;
  return (
    <tr class={allIn(sums) < 0 ? "m-loss" : ""}>
      {day}
      <td>{still ?? figures(sums.distanceM / 1000)}</td>
      <td>{exactAmount(energyOnly(sums), currency)}</td>
      <td>{exactAmount(allIn(sums), currency)}</td>
    </tr>
  );
}

/** Months side by side, newest first, once there is more than one. */
export function MonthsTable({ rows }: { rows: readonly MoneyRow[] }) {
  const words = moneyWords.now();
  const [first] = rows;
  if (!first || rows.length < 2) return null;
  const own = [...rows].reverse().filter((row) => row.currency === first.currency);
  const per = minorPerMajor(first.currency) ?? 1;
  const picture: Picture = {
    says: `${words.monthByMonth}: ${joined(words.energyOnly, words.allIn)}`,
    labels: own.map((row) => monthAndYear(row.key)),
    series: [
      { word: words.allIn, kind: "bars", look: "ink", values: own.map((row) => row.allIn / per) },
      { word: words.energyOnly, kind: "line", look: "plug", values: own.map((row) => row.energyOnly / per) },
    ],
  };
  return (
    <>
      <h2 class="m-title">{words.monthByMonth}</h2>
      <Drawing picture={picture} />
      <div class="m-scroll">
        <table class="m-table">
          <caption class="aside">{words.monthByMonth}</caption>
          <thead>
            <tr>
              <th scope="col">{words.month}</th>
              <th scope="col">{words.km}</th>
              <th scope="col">{words.energyOnly}</th>
              <th scope="col">{words.allIn}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={`${row.key}${row.currency}`} class={row.allIn < 0 ? "m-loss" : ""}>
                <th scope="row">{monthAndYear(row.key)}</th>
                <td>{figures(row.sums.distanceM / 1000)}</td>
                <td>{exactAmount(row.energyOnly, row.currency)}</td>
                <td>{exactAmount(row.allIn, row.currency)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
