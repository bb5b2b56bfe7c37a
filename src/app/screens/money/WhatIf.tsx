import { useEffect, useState } from "preact/hooks";
import { minorPerMajor } from "../../../calc/money/currency.js";
import type { ChangeWorth, KitChange } from "../../../calc/money/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { listed, book as recordBook, roundOf, yardOf } from "../../fleet.js";
import { Key } from "../../parts/keys.js";
import { NumberPad } from "../../parts/NumberPad.js";
import { Say } from "../../parts/Say.js";
import { figures } from "../../words/format.js";
import { roughAmount } from "../../words/money/amount.js";
import { moneyWords } from "../../words/money.js";
import { oneAtATime } from "./turns.js";

type Name = KitChange["name"];
const USUAL_DISCOUNT = 0.12;

/** What another kit would change: asks what it costs more, then sizes a year of it. */
export function WhatIf({ book }: { book: MoneyBook }) {
  const words = moneyWords.now();
  const [asks, setAsks] = useState<Name | null>(null);
  const [share, setShare] = useState<number | null>(null);
  const [found, setFound] = useState<ChangeWorth | null>(null);
  const [turns] = useState(oneAtATime);
  useEffect(() => turns.stop, []); // a page that is left asks for nothing more
  const yard = yardOf(book.vehicle);
  const round = roundOf(book.vehicle.usual.roundId);
  if (!yard || !round || !book.year.ok) return null;
  const names: readonly Name[] =
    book.vehicle.battery.chemistry === "lfp" ? ["biggerRoof", "secondSet"] : ["biggerRoof", "secondSet", "lithium"];
  const reckon = async (name: Name, price: number) => {
    setAsks(null);
    setFound(null);
    setShare(0);
    const plan = listed(recordBook.value, "moneyPlan").find(({ vehicleId }) => vehicleId === book.vehicle.id);
    const extraPrice = Math.round(price * (minorPerMajor(book.currency) ?? 1));
    const of = { book, yard, round, discountPerYear: plan?.discountPerYear ?? USUAL_DISCOUNT };
    const worth = await turns.run(async (signal) => {
      const { tryChange } = await import("./what-if.js");
      return tryChange(of, { name, extraPrice }, { signal, onShare: (part) => !signal.aborted && setShare(part) });
    });
    if (!worth) return;
    setShare(null);
    setFound(worth.value);
  };
  return (
    <>
      <h2 class="m-title">{words.whatIf}</h2>
      <div class="m-ways">
        {names.map((name) => (
          <Key key={name} chosen={found?.name === name} onPress={() => setAsks(name)}>
            {words[name]}
          </Key>
        ))}
      </div>
      {share !== null && (
        <p class="m-facts" role="status">
          {words.reckoning} <span class="fig">{figures(share * 100)} %</span>
        </p>
      )}
      {found && <Found worth={found} currency={book.currency} />}
      {asks && (
        <NumberPad
          title={`${words[asks]}. ${words.extraPrice}`}
          unit={book.currency}
          least={0}
          most={99_999_999}
          onClose={() => setAsks(null)}
          onKeep={(price) => void reckon(asks, price)}
        />
      )}
    </>
  );
}

function Found({ worth, currency }: { worth: ChangeWorth; currency: string }) {
  const words = moneyWords.now();
  const { morePerYear, paybackYears, pays } = worth;
  const amount = roughAmount(Math.abs(morePerYear), currency, morePerYear >= 0 ? "down" : "near");
  return (
    <section class={`m-panel ${pays ? "" : "m-loss"}`} role="status">
      <h2>{words[worth.name]}</h2>
      <p>
        <Say text={morePerYear >= 0 ? words.morePerYear(amount) : words.lessPerYear(amount)} />
      </p>
      <p>
        <Say text={paybackYears === null || !pays ? words.extraNever : words.extraBack(paybackYears)} />
      </p>
    </section>
  );
}
