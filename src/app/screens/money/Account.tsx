import { useEffect, useState } from "preact/hooks";
import {
  type Account,
  type AccountKind,
  type AccountRow,
  driverAccounts,
  leftAtNight,
  setAsidePerKm,
} from "../../../calc/money/index.js";
import type { AccountLineRecord } from "../../../records/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { keep, listed, newId, book as recordBook, vehicleOf, vehicles } from "../../fleet.js";
import { ChoicePad } from "../../parts/ChoicePad.js";
import { Key } from "../../parts/keys.js";
import { NumberPad } from "../../parts/NumberPad.js";
import { Say } from "../../parts/Say.js";
import { TextPad } from "../../parts/TextPad.js";
import type { ScreenProps } from "../../places.js";
import { loadKind } from "../../shelf.js";
import { here, nowUtcMs } from "../../state.js";
import { dayAndMonth } from "../../words/format.js";
import { exactAmount, roughAmount } from "../../words/money/amount.js";
import { moneyWords } from "../../words/money.js";
import { type AskedAmount, currencyOf, lineOf } from "./account-model.js";
import { useBooks } from "./books.js";
import { MoneyPage } from "./MoneyPage.js";

export const words = [moneyWords];

const ABOUT: readonly AccountKind[] = [
  "rent",
  "energy",
  "payment",
  "takings",
  "depositIn",
  "depositBack",
  "instalment",
  "damage",
];

/** Who owes what? Deposit, rent and daily money between owner and driver, line by line; nothing is ever rubbed out. */
export function Screen({ params }: ScreenProps) {
  const words = moneyWords.now();
  const vehicle = vehicleOf(params[0] ?? "") ?? vehicles.value[0];
  const [book] = useBooks(vehicle ? [vehicle] : []);
  useEffect(() => void loadKind("accountLine"), []);
  if (!vehicle) return null;
  const above = vehicles.value.length > 1 ? `money/${vehicle.id}` : "money";
  return (
    <MoneyPage title={words.keys.account} sub={words.accountAsks} vehicle={vehicle} above={above}>
      {book && <Body book={book} />}
    </MoneyPage>
  );
}

type Asks =
  | { readonly what: "driver" }
  | { readonly what: "about"; readonly driver: string }
  | (AskedAmount & { readonly what: "amount" });

function Body({ book }: { book: MoneyBook }) {
  const words = moneyWords.now();
  const [asks, setAsks] = useState<Asks | null>(null);
  const { vehicle, currency } = book;
  const lines = listed(recordBook.value, "accountLine").filter((line) => line.vehicleId === vehicle.id);
  const drivers = [...new Set(lines.map((line) => line.driver))];
  const write = async (of: Extract<Asks, { what: "amount" }>, amount: number) => {
    setAsks(null);
    const put = lineOf(of, amount, {
      id: newId(),
      vehicleId: vehicle.id,
      date: here.value.date,
      currency,
      writtenUtcMs: nowUtcMs.value,
    });
    await keep([{ kind: "accountLine", put }], words.kept);
  };
  return (
    <>
      {drivers.length === 0 && <p class="m-facts">{words.noAccount}</p>}
      {drivers.map((driver) => (
        <Driver
          key={driver}
          driver={driver}
          book={book}
          lines={lines.filter((line) => line.driver === driver)}
          onAdd={() => setAsks({ what: "about", driver })}
          onCorrect={(row) => setAsks({ what: "amount", driver, about: row.line.kind, corrects: row })}
        />
      ))}
      <div class="m-ways">
        <Key kind={drivers.length === 0 ? "main" : ""} onPress={() => setAsks({ what: "driver" })}>
          {words.driver} +
        </Key>
      </div>
      <p class="m-facts">
        <small>{words.neverRubbed}</small>
      </p>
      {asks?.what === "driver" && (
        <TextPad
          title={words.driver}
          start=""
          onClose={() => setAsks(null)}
          onKeep={(driver) => setAsks({ what: "about", driver })}
        />
      )}
      {asks?.what === "about" && (
        <ChoicePad
          title={asks.driver}
          choices={ABOUT.map((value) => ({ value, word: words.about[value] }))}
          chosen={null}
          onClose={() => setAsks(null)}
          onKeep={(about) => setAsks({ what: "amount", driver: asks.driver, about, corrects: null })}
        />
      )}
      {asks?.what === "amount" && (
        <NumberPad
          title={`${asks.driver}: ${words.about[asks.about]}`}
          unit={currencyOf(asks, currency)}
          least={0}
          most={99_999_999}
          decimals={2}
          onClose={() => setAsks(null)}
          onKeep={(amount) => void write(asks, amount)}
        />
      )}
    </>
  );
}

function Driver(props: {
  readonly driver: string;
  readonly book: MoneyBook;
  readonly lines: readonly AccountLineRecord[];
  readonly onAdd: () => void;
  readonly onCorrect: (row: AccountRow) => void;
}) {
  const words = moneyWords.now();
  const { accounts } = driverAccounts(props.lines.map(({ about, ...line }) => ({ ...line, kind: about })));
  return (
    <section>
      {accounts.map((account) => (
        <div key={account.currency}>
          <h2 class="m-title">
            <Say text={balance(account, props.driver)} />
          </h2>
          <Tonight account={account} book={props.book} />
          {account.depositMinor !== 0 && (
            <p class="m-facts">
              <Say text={words.deposit(roughAmount(account.depositMinor, account.currency))} />
            </p>
          )}
          <table class="m-table">
            <caption class="aside">{props.driver}</caption>
            <tbody>
              {[...account.rows].reverse().map((row) => (
                <tr key={row.line.id}>
                  <th scope="row">
                    {dayAndMonth(row.line.date)} {words.about[row.line.kind]}
                    {row.correctedBy.length > 0 && (
                      <small class="m-was">
                        {words.corrected(exactAmount(row.line.amountMinor, account.currency))}
                      </small>
                    )}
                  </th>
                  <td>{exactAmount(row.amountMinor, account.currency)}</td>
                  <td class="no-print">
                    <Key kind="alt" onPress={() => props.onCorrect(row)}>
                      {words.correct}
                    </Key>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      ))}
      <div class="m-ways">
        <Key kind="main" onPress={props.onAdd}>
          {props.driver} +
        </Key>
      </div>
    </section>
  );
}

function balance({ owedMinor, currency }: Account, driver: string): string {
  const words = moneyWords.now();
  if (owedMinor === 0) return words.quits(driver);
  const amount = roughAmount(Math.abs(owedMinor), currency);
  return owedMinor > 0 ? words.owes(driver, amount) : words.isOwed(driver, amount);
}

/** What is left of today's takings once today's lines are taken off, and once the money for the next set is put by. */
function Tonight({ account, book }: { account: Account; book: MoneyBook }) {
  const words = moneyWords.now();
  const { date } = here.value;
  const today = (kinds: readonly AccountKind[]) =>
    account.rows
      .filter(({ line }) => line.date === date && kinds.includes(line.kind))
      .reduce((sum, row) => sum + row.amountMinor, 0);
  const takingsMinor = today(["takings"]);
  if (takingsMinor === 0) return null;
  const line = book.lines.find((each) => each.date === date);
  const year = book.year.ok ? book.year.value.terms : null;
  const night = leftAtNight({
    takingsMinor,
    rentMinor: today(["rent"]),
    energyMinor: today(["energy"]),
    instalmentMinor: today(["instalment"]),
    otherMinor: today(["damage"]),
    km: (line?.sums.distanceM ?? 0) / 1000,
    setAsidePerKm: year ? setAsidePerKm(year, year.kmPerDay * year.workDaysPerYear) : 0,
  });
  return (
    <p class="m-facts">
      <Say text={words.leftTonight(roughAmount(night.leftMinor, account.currency, "down"))} />
      {night.setAsideMinor > 0 && (
        <small>
          <Say text={words.afterSet(roughAmount(night.ownMinor, account.currency, "down"))} />
        </small>
      )}
    </p>
  );
}
