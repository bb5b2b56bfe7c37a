import type { ComponentChildren } from "preact";
import { minorPerMajor } from "../../../calc/money/currency.js";
import { LEARNED_DAYS } from "../../../calc/money/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { listed, book as recordBook, vehicleOf, vehicles } from "../../fleet.js";
import { Key } from "../../parts/keys.js";
import { Say } from "../../parts/Say.js";
import type { ScreenProps } from "../../places.js";
import { go } from "../../router.js";
import { say } from "../../voice.js";
import { fig, figures, joined, n, plain } from "../../words/format.js";
import { exactAmount, monthAndYear, roughAmount } from "../../words/money/amount.js";
import type { MoneyWords } from "../../words/money/en.js";
import { moneyWords } from "../../words/money.js";
import { useBooks } from "./books.js";
import { Drawing } from "./Drawing.js";
import { MoneyPage } from "./MoneyPage.js";
import { Problems } from "./Problems.js";
import { shownMonths, type Turn, turnsOf, worthOfKit } from "./payback-model.js";
import type { Picture } from "./picture.js";
import { WhatIf } from "./WhatIf.js";

export const words = [moneyWords];

type Answered = NonNullable<MoneyBook["payback"]>;
const USUAL_DISCOUNT = 0.12;

/** When is the kit paid? */
export function Screen({ params }: ScreenProps) {
  const words = moneyWords.now();
  const vehicle = vehicleOf(params[0] ?? "") ?? vehicles.value[0];
  const [book] = useBooks(vehicle ? [vehicle] : []);
  if (!vehicle) return null;
  const above = vehicles.value.length > 1 ? `money/${vehicle.id}` : "money";
  const verdict = book?.payback ? verdictOf(words, book.payback, book.currency) : null;
  const speak = verdict ? () => void say(plain(`${verdict.title}. ${verdict.says.join(". ")}`)) : undefined;
  return (
    <MoneyPage
      title={words.keys.payback}
      sub={words.paybackAsks}
      vehicle={vehicle}
      above={above}
      {...(speak ? { onSay: speak } : {})}
    >
      {book && !book.payback && <Missing book={book} />}
      {book?.payback && verdict && (
        <>
          <section class={`m-panel ${verdict.look}`}>
            <h2>
              <Say text={verdict.title} />
            </h2>
            {verdict.says.map((one) => (
              <p key={one}>
                <Say text={one} />
              </p>
            ))}
          </section>
          <Body book={book} answered={book.payback} />
        </>
      )}
    </MoneyPage>
  );
}

/** What is missing for an answer, with the key to give it. */
function Missing({ book }: { book: MoneyBook }) {
  const words = moneyWords.now();
  const problems = book.year.ok ? [] : book.year.problems;
  return (
    <>
      <Problems problems={[...book.problems, ...problems]} vehicleId={book.vehicle.id} />
      {book.kit.length === 0 && (
        <div class="m-problems">
          <p>{words.noKit}</p>
          <Key kind="main" onPress={() => go(`money-figures/${book.vehicle.id}`)}>
            {words.changeFigure}
          </Key>
        </div>
      )}
    </>
  );
}

function verdictOf(words: MoneyWords, { of, answer }: Answered, currency: string) {
  const month = (date: string) => monthAndYear(date.slice(0, 7));
  if (answer.likely === of.today) return { look: "m-plain", title: words.paidAlready, says: [] };
  if (answer.verdict === "doesNotPay" || answer.likely === null) {
    const { likely } = answer.perYear;
    const says =
      likely < 0
        ? words.losesPerYear(roughAmount(-likely, currency))
        : words.tooDear(roughAmount(likely, currency, "down"), Math.round(of.lifeYears));
    return { look: "m-loss", title: words.doesNotPay, says: [says] };
  }
  const low = month(answer.low ?? answer.likely);
  if (answer.high === null || answer.verdict === "unsure")
    return {
      look: "",
      title: words.unsure,
      says: [
        words.paidIn(month(answer.likely)),
        answer.high === null ? words.orNever(low) : words.between(low, month(answer.high)),
      ],
    };
  return { look: "m-plain", title: words.paidIn(month(answer.likely)), says: [words.between(low, month(answer.high))] };
}

function Body({ book, answered }: { book: MoneyBook; answered: Answered }) {
  const words = moneyWords.now();
  const { currency } = book;
  const { of, answer } = answered;
  const rough = (minor: number) => roughAmount(minor, currency, "down");
  return (
    <>
      <Problems problems={book.problems} vehicleId={book.vehicle.id} />
      <dl class="m-facts m-pairs">
        <Pair word={words.price}>{exactAmount(of.priceMinor, currency)}</Pair>
        <Pair word={words.savedSoFar}>{exactAmount(of.savedMinor, currency)}</Pair>
        <Pair word={words.perWorkDay}>
          <Say text={rough(answer.perWorkDay)} />
        </Pair>
        <Pair word={words.perYear}>
          <Say text={words.from(rough(answer.perYear.low), rough(answer.perYear.high))} />
        </Pair>
        <Pair word={words.workDays}>
          <Say text={n(of.terms.workDaysPerYear)} />
        </Pair>
      </dl>
      <Remarks book={book} answered={answered} />
      <div class="m-ways">
        <Key kind="main" onPress={() => go(`money-figures/${book.vehicle.id}`)}>
          {words.changeFigure}
        </Key>
      </div>
      <Course answered={answered} currency={currency} />
      <Most book={book} answered={answered} />
      <WhatIf book={book} />
      <p class="m-facts">
        <small>{words.pricesStay}</small>
      </p>
    </>
  );
}

const Pair = ({ word, children }: { word: string; children: ComponentChildren }) => (
  <>
    <dt>{word}</dt>
    <dd>{children}</dd>
  </>
);

/** What the answer rests on, what the loan really costs, what the purchase is worth. */
function Remarks({ book, answered }: { book: MoneyBook; answered: Answered }) {
  const words = moneyWords.now();
  const { of, answer } = answered;
  const days = book.year.ok ? book.year.value.days : 0;
  const largest = Math.max(0, ...of.instalments.map(({ amountMinor }) => amountMinor));
  const plan = listed(recordBook.value, "moneyPlan").find(({ vehicleId }) => vehicleId === book.vehicle.id);
  const resale = book.kit.reduce((sum, { resaleMinor }) => sum + resaleMinor, 0);
  const worth = worthOfKit(answered, plan?.discountPerYear ?? USUAL_DISCOUNT, resale);
  const { theRate } = worth.rate;
  const instalment = roughAmount(largest, book.currency);
  const said = [
    days < LEARNED_DAYS ? words.guessYet : words.restsOn(days),
    answer.carriesInstalment !== null &&
      (answer.carriesInstalment ? words.carries(instalment) : words.carriesNot(instalment)),
    ...book.loans.map(
      ({ plan: { trueRatePerYear } }) => trueRatePerYear !== null && words.trueRate(trueRatePerYear * 100),
    ),
    `${words.ownWorth(roughAmount(worth.npv, book.currency, "down"))}, ${
      theRate !== null ? words.yearlyGain(theRate * 100) : words.noRate
    }`,
  ].filter((text) => text !== false);
  return (
    <div class="m-facts">
      {said.map((text) => (
        <p key={text}>
          <Say text={text} />
        </p>
      ))}
    </div>
  );
}

/** Saving against what was paid in, instalments as steps; picture on asking, table always. */
function Course({ answered, currency }: { answered: Answered; currency: string }) {
  const words = moneyWords.now();
  const months = shownMonths(answered);
  const per = minorPerMajor(currency) ?? 1;
  const picture: Picture = {
    says: `${words.keys.payback}: ${joined(words.savedLine, words.paidLine)}`,
    labels: months.map(({ month }) => monthAndYear(month)),
    series: [
      { word: words.savedLow, kind: "line", look: "doubt", values: months.map((month) => month.savedLowMinor / per) },
      {
        word: words.savedHigh,
        kind: "line",
        look: "doubt",
        values: months.map((month) => month.savedHighMinor / per),
        fillTo: "before",
      },
      { word: words.savedLine, kind: "line", look: "ink", values: months.map((month) => month.savedMinor / per) },
      { word: words.paidLine, kind: "steps", look: "plug", values: months.map((month) => month.paidInMinor / per) },
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
              <th scope="col">{currency}</th>
              <th scope="col">{words.paidLine}</th>
              <th scope="col">{words.savedLine}</th>
              <th scope="col">{words.savedLow}</th>
              <th scope="col">{words.savedHigh}</th>
            </tr>
          </thead>
          <tbody>
            {months.map((month) => (
              <tr key={month.month}>
                <th scope="row">{monthAndYear(month.month)}</th>
                {[month.paidInMinor, month.savedMinor, month.savedLowMinor, month.savedHighMinor].map((minor, i) => (
                  <td key={`${month.month}${i}`}>{figures(Math.round(minor / per))}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

const MOST_SHOWN = 4;

/** What would change it most, and where it would begin to pay. */
function Most({ book, answered }: { book: MoneyBook; answered: Answered }) {
  const words = moneyWords.now();
  const cell = (minor: number) => plain(roughAmount(minor, book.currency, "down"));
  return (
    <>
      <h2 class="m-title">{words.mostChange}</h2>
      <div class="m-scroll">
        <table class="m-table">
          <caption class="aside">{words.mostChange}</caption>
          <thead>
            <tr>
              <th scope="col">{words.perYear}</th>
              <th scope="col">{words.ifLow}</th>
              <th scope="col">{words.ifHigh}</th>
            </tr>
          </thead>
          <tbody>
            {book.swings.slice(0, MOST_SHOWN).map((swing) => (
              <tr key={swing.field}>
                <th scope="row">{words.fields[swing.field]}</th>
                <td>{cell(swing.savingAtLow)}</td>
                <td>{cell(swing.savingAtHigh)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {answered.answer.verdict === "doesNotPay" && (
        <div class="m-facts">
          {turnsOf(answered).map((turn) => (
            <p key={turn.field}>
              <Say text={words.paysFrom(words.fields[turn.field], turnValue(words, turn, book.currency))} />
            </p>
          ))}
        </div>
      )}
    </>
  );
}

const turnValue = (words: MoneyWords, turn: Turn, currency: string): string =>
  turn.field === "fuelPricePerUnit"
    ? roughAmount(turn.value, currency)
    : `${fig(figures(Math.ceil(turn.value)))} ${words.km}`;
