import "./report.css";
import type { ComponentChildren } from "preact";
import { shortHash } from "../../../records/export/money-chain.js";
import { type Report, reportOf, type Span } from "../../../records/export/money-report.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { listed, book as recordBook, vehicleOf, vehicles } from "../../fleet.js";
import { Key } from "../../parts/keys.js";
import type { ScreenProps } from "../../places.js";
import { settings } from "../../settings.js";
import { here } from "../../state.js";
import { figures, plain } from "../../words/format.js";
import { dayMonthYear, exactAmount, monthAndYear, thousandths } from "../../words/money/amount.js";
import type { MoneyWords } from "../../words/money/en.js";
import { moneyWords } from "../../words/money.js";
import { useBooks } from "./books.js";
import { MoneyPage } from "./MoneyPage.js";
import { type Seal, useSeal } from "./seal.js";
import { booksLines, TableKeys } from "./TableKeys.js";

export const words = [moneyWords];

// What a printed page has room for; how many are left out is said.
const MOST_SPANS = 24;
const MOST_PAYBACKS = 24;

/** One page for lender, cooperative or family. Gaps are listed as days, never filled in. */
export function Screen({ params }: ScreenProps) {
  const words = moneyWords.now();
  const vehicle = vehicleOf(params[0] ?? "") ?? (vehicles.value.length === 1 ? vehicles.value[0] : undefined);
  const books = useBooks(vehicle ? [vehicle] : vehicles.value);
  const seal = useSeal(vehicle?.id ?? null);
  const above = vehicle && vehicles.value.length > 1 ? `money/${vehicle.id}` : "money";
  const [first] = books;
  return (
    <MoneyPage title={words.keys.report} sub={words.reportAsks} vehicle={vehicle ?? null} above={above} narrow={false}>
      {first && <Body seal={seal} report={reportFor(books, first.currency, seal?.head ?? null)} />}
      {first && (
        <div class="m-ways no-print">
          <Key kind="main" onPress={() => print()}>
            {words.print}
          </Key>
        </div>
      )}
      {first && <TableKeys linesOf={async () => booksLines(books, null)} month={null} />}
    </MoneyPage>
  );
}

function reportFor(books: readonly MoneyBook[], currency: string, chainHead: string | null): Report {
  const from = books.map((book) => book.lines[0]?.date ?? here.value.date).sort()[0] ?? here.value.date;
  return reportOf({
    from,
    to: here.value.date,
    currency,
    chainHead,
    vehicles: books.map((book) => ({
      plate: book.vehicle.plate,
      lines: book.lines,
      terms: book.terms,
      baselines: listed(recordBook.value, "baseline").filter(({ vehicleId }) => vehicleId === book.vehicle.id),
      kit: book.kit,
      loans: book.loans.map(({ record, plan }) => ({ lender: record.lender, plan })),
      payback: book.payback?.answer ?? null,
    })),
  });
}

function Body({ report, seal }: { report: Report; seal: Seal | null }) {
  const words = moneyWords.now();
  const { sums, currency } = report;
  const exact = (minor: number) => exactAmount(minor, currency);
  const range = (guess: Report["allIn"]) => words.from(exact(guess.lowMinor), exact(guess.highMinor));
  return (
    <article class="m-report">
      <header>
        <h2>{words.reportTitle}</h2>
        <p>
          {report.plates.join(" · ")}. {words.period(dayMonthYear(report.from), dayMonthYear(report.to))}
        </p>
        {settings.value.demo && <p>{words.madeUp}</p>}
      </header>
      <div class="m-report-columns">
        <Facts>
          <Fact word={words.km}>{plain(thousandths(sums.distanceM))}</Fact>
          <Fact word={words.daysOnRoad}>{figures(sums.workedDays)}</Fact>
          <Fact word={words.daysOffRoad}>{figures(sums.offRoadDays)}</Fact>
          <Fact word={words.notWritten}>{figures(sums.missingDays)}</Fact>
          {sums.openDays > 0 && <Fact word={words.notCounted}>{figures(sums.openDays)}</Fact>}
        </Facts>
        <Facts>
          <UnitFacts report={report} words={words} />
        </Facts>
      </div>
      <table class="m-table">
        <caption class="aside">{words.sumAllIn}</caption>
        <tbody>
          {report.parts
            .filter(({ minor, part }) => minor !== 0 || part === "fuelThen" || part === "power")
            .map(({ part, minor }) => (
              <tr key={part}>
                <th scope="row">{words.parts[part]}</th>
                <td>{exact(minor)}</td>
              </tr>
            ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">{words.sumEnergy}</th>
            <td>
              {exact(report.energyOnly.likelyMinor)} <small>{range(report.energyOnly)}</small>
            </td>
          </tr>
          <tr>
            <th scope="row">{words.sumAllIn}</th>
            <td>
              {exact(report.allIn.likelyMinor)} <small>{range(report.allIn)}</small>
            </td>
          </tr>
        </tfoot>
      </table>
      <p>
        <small>{words.lowHigh}</small>
      </p>
      <div class="m-report-columns">
        <Basis report={report} words={words} />
        <Owed report={report} words={words} />
      </div>
      <GapDays words={words} title={words.notWritten} spans={report.missing} many={report.plates.length > 1} />
      <GapDays words={words} title={words.daysOffRoad} spans={report.offRoad} many={report.plates.length > 1} />
      {seal && <Mark words={words} seal={seal} />}
      <div class="m-sign">
        <span>{words.date}</span>
        <span>{words.signHere}</span>
      </div>
    </article>
  );
}

const Facts = ({ children }: { children: ComponentChildren }) => <dl class="m-pairs">{children}</dl>;
const Fact = ({ word, children }: { word: string; children: ComponentChildren }) => (
  <>
    <dt>{word}</dt>
    <dd>{children}</dd>
  </>
);

function UnitFacts({ report, words }: { report: Report; words: MoneyWords }) {
  const { sums } = report;
  const rows = [
    { word: words.fromSocket(words.units), wh: sums.gridWh, how: words.measured },
    { word: words.fromSocket(words.units), wh: sums.gridGuessWh, how: words.estimated },
    { word: words.fromSun(words.units), wh: sums.sunWh, how: words.measured },
    { word: words.fromSun(words.units), wh: sums.sunGuessWh, how: words.estimated },
  ].filter(({ wh }) => wh > 0);
  return (
    <>
      {rows.map(({ word, wh, how }) => (
        <Fact key={`${word}${how}`} word={`${word}, ${how}`}>
          {plain(thousandths(wh, 1))}
        </Fact>
      ))}
      {sums.fuelMl > 0 && <Fact word={words.notBought}>{plain(words.litres(sums.fuelMl / 1000))}</Fact>}
      {sums.fuelG > 0 && <Fact word={words.notBought}>{plain(words.kilograms(sums.fuelG / 1000))}</Fact>}
      {report.carbon && (
        <Fact word={plain(report.carbon.savedG >= 0 ? words.carbon("") : words.carbonMore("")).trim()}>
          {plain(thousandths(Math.abs(report.carbon.savedG)))}
        </Fact>
      )}
    </>
  );
}

/** The fuel vehicle it is compared with, prices with their dates, and where the carbon figures are from. */
function Basis({ report, words }: { report: Report; words: MoneyWords }) {
  const same = new Map(report.baselines.map((one) => [`${one.fuel} ${one.per100Km} ${one.how} ${one.from}`, one]));
  return (
    <section>
      <h3>{words.baseline}</h3>
      {[...same.values()].map(({ fuel, per100Km, how, from }) => (
        <p key={`${fuel}${per100Km}${how}${from}`}>
          {plain(words.perHundred(per100Km, fuel === "cng" ? "kg" : "l", words.fuels[fuel]))}, {words.knownBy[how]},{" "}
          {words.since(from)}
        </p>
      ))}
      {report.fuelPrices.map(({ fuel, from, perUnitMinor }) => (
        <p key={`${fuel}${from}`}>
          {words.fuelPrices}: {exactAmount(Math.round(perUnitMinor), report.currency)}{" "}
          {fuel === "cng" ? words.perKg : words.perLitre}, {words.since(from)}
        </p>
      ))}
      {report.carbon?.factors.map(({ country, year, source }) => (
        <p key={`${country}${year}`}>
          <small>{words.carbonFrom(country, year, source)}</small>
        </p>
      ))}
    </section>
  );
}

/** Price of the kit, loans, payback. */
function Owed({ report, words }: { report: Report; words: MoneyWords }) {
  const month = (date: string | null) => (date === null ? words.noMoney : monthAndYear(date.slice(0, 7)));
  return (
    <section>
      <h3>{words.keys.payback}</h3>
      {report.kitMinor > 0 && (
        <p>
          {words.price}: {exactAmount(report.kitMinor, report.currency)}
        </p>
      )}
      {report.debts.map(({ lender, loans, leftMinor, ends }) => (
        <p key={lender}>
          {words.loanLine(
            loans > 1 ? `${lender} (${figures(loans)})` : lender,
            exactAmount(leftMinor, report.currency),
            dayMonthYear(ends),
          )}
        </p>
      ))}
      {report.paybacks.slice(0, MOST_PAYBACKS).map(({ plate, payback }) => (
        <p key={plate}>
          {report.paybacks.length > 1 && `${plate}: `}
          {!payback && words.noMoney}
          {payback?.verdict === "doesNotPay" && words.doesNotPay}
          {payback && payback.verdict !== "doesNotPay" && (
            <>
              {words.paidIn(month(payback.likely))},{" "}
              {payback.high === null
                ? words.orNever(month(payback.low))
                : words.between(month(payback.low), month(payback.high))}
            </>
          )}
        </p>
      ))}
      {report.paybacks.length > MOST_PAYBACKS && <p>+{figures(report.paybacks.length - MOST_PAYBACKS)}</p>}
    </section>
  );
}

/** The mark of the log, and what does not match it. */
function Mark({ words, seal }: { words: MoneyWords; seal: Seal }) {
  if (seal.head === null && seal.broken === 0) return null;
  return (
    <p>
      {seal.head !== null && <b>{words.sealed(shortHash(seal.head))}. </b>}
      {seal.broken > 0 ? words.sealBroken : <small>{words.sealedWhy}</small>}
      {seal.unmarked > 0 && <small> {plain(words.sealPartly(seal.unmarked))}.</small>}
    </p>
  );
}

function GapDays(props: {
  readonly words: MoneyWords;
  readonly title: string;
  readonly spans: readonly ({ readonly plate: string } & Span)[];
  readonly many: boolean;
}) {
  const { spans, words, title, many } = props;
  if (spans.length === 0) return null;
  const said = spans
    .slice(0, MOST_SPANS)
    .map(
      ({ plate, from, to }) =>
        `${many ? `${plate}: ` : ""}${from === to ? dayMonthYear(from) : words.period(dayMonthYear(from), dayMonthYear(to))}`,
    );
  return (
    <p>
      <b>{title}:</b> {said.join("; ")}
      {spans.length > MOST_SPANS && ` +${figures(spans.length - MOST_SPANS)}`}
    </p>
  );
}
