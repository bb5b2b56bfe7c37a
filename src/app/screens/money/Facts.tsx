import type { Sums } from "../../../calc/money/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { Say } from "../../parts/Say.js";
import { n } from "../../words/format.js";
import { roughAmount, thousandths } from "../../words/money/amount.js";
import { moneyWords } from "../../words/money.js";
import { type Fair, type GridFactor, savedCarbonG } from "./facts-model.js";

/** Units by where they came from and how that is known, fuel not bought, carbon, fair price, lease. */
export function Facts(props: {
  readonly sums: Sums;
  readonly currency: string;
  readonly fair: Fair | null;
  readonly grid: GridFactor | null;
  readonly lease: MoneyBook["lease"];
}) {
  const words = moneyWords.now();
  const { sums, currency, fair, grid, lease } = props;
  return (
    <section class="m-facts">
      <Units sums={sums} currency={currency} />
      {sums.fuelMl > 0 && (
        <p>
          <Say text={words.fuelNotBought(words.litres(sums.fuelMl / 1000))} />
        </p>
      )}
      {sums.fuelG > 0 && (
        <p>
          <Say text={words.fuelNotBought(words.kilograms(sums.fuelG / 1000))} />
        </p>
      )}
      <Carbon sums={sums} grid={grid} />
      {fair && (
        <p>
          <Say
            text={words.fairPaid(
              words.from(roughAmount(fair.fairLowMinor, currency), roughAmount(fair.fairHighMinor, currency)),
              roughAmount(fair.paidMinor, currency),
            )}
          />
        </p>
      )}
      <Lease lease={lease} />
    </section>
  );
}

/** Units read off and units worked out are never thrown together without saying so. */
export function Units({ sums, currency }: { sums: Sums; currency: string }) {
  const words = moneyWords.now();
  const how = (read: number, guessed: number) =>
    [read > 0 && words.measured, guessed > 0 && words.estimated].filter((text) => text !== false).join(" + ");
  const grid = sums.gridWh + sums.gridGuessWh;
  const sun = sums.sunWh + sums.sunGuessWh;
  return (
    <>
      {grid > 0 && (
        <p>
          <Say text={words.fromSocket(thousandths(grid, 1))} /> <small>{how(sums.gridWh, sums.gridGuessWh)}</small>
        </p>
      )}
      {sun > 0 && (
        <p>
          <Say text={words.fromSun(thousandths(sun, 1))} /> <small>{how(sums.sunWh, sums.sunGuessWh)}</small>
        </p>
      )}
      {sums.sunWorth > 0 && (
        <p>
          <Say text={words.withoutRoof(roughAmount(sums.sunWorth, currency, "down"))} />
        </p>
      )}
    </>
  );
}

export function Carbon({ sums, grid }: { sums: Sums; grid: GridFactor | null }) {
  const words = moneyWords.now();
  const saved = savedCarbonG(sums);
  if (saved === null || !grid) return null;
  const kg = thousandths(Math.abs(saved));
  return (
    <p>
      <Say text={saved >= 0 ? words.carbon(kg) : words.carbonMore(kg)} />
      <small>{words.carbonFrom(grid.country, grid.year, grid.source)}</small>
    </p>
  );
}

function Lease({ lease }: { lease: MoneyBook["lease"] }) {
  const words = moneyWords.now();
  if (!lease) return null;
  if (lease.code === "over") return <p>{words.leaseOver(n(Math.ceil(-lease.kmLeft)))}</p>;
  if (lease.code === "warn" && lease.reachedOn) return <p>{words.leaseWarn(lease.reachedOn)}</p>;
  return (
    <p>
      <Say text={words.leaseFine(n(Math.floor(lease.kmLeft)))} />
    </p>
  );
}
