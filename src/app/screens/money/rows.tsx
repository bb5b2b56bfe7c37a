import type { Gap } from "../../../calc/money/index.js";
import { Say } from "../../parts/Say.js";
import { figures } from "../../words/format.js";
import { between, exactAmount, roughAmount } from "../../words/money/amount.js";
import { moneyWords } from "../../words/money.js";

/** One of the two lines that always stand together: what was saved, likely, with its low and high guess. */
export function SavedLine(props: {
  readonly word: string;
  readonly likely: number;
  readonly low: number;
  readonly high: number;
  readonly currency: string;
  readonly big?: boolean;
}) {
  const { likely, low, high, currency } = props;
  const words = moneyWords.now();
  const [from, to] = between(low, high, currency);
  return (
    <div class={`m-line ${likely < 0 ? "m-loss" : ""} ${props.big ? "m-big" : ""}`}>
      <span class="m-word">{props.word}</span>
      <span class="m-amount">
        <Say text={roughAmount(likely, currency, "down")} />
      </span>
      <small>
        <Say text={words.from(from, to)} />
      </small>
    </div>
  );
}

/** Lines that add up to the last one, to the last coin. */
export function SumTable(props: {
  readonly caption: string;
  readonly parts: readonly { readonly word: string; readonly minor: number }[];
  readonly sum: { readonly word: string; readonly minor: number };
  readonly currency: string;
}) {
  return (
    <table class="m-table">
      <caption class="aside">{props.caption}</caption>
      <tbody>
        {props.parts.map(({ word, minor }) => (
          <tr key={word}>
            <th scope="row">{word}</th>
            <td>{exactAmount(minor, props.currency)}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr class={props.sum.minor < 0 ? "m-loss" : ""}>
          <th scope="row">{props.sum.word}</th>
          <td>{exactAmount(props.sum.minor, props.currency)}</td>
        </tr>
      </tfoot>
    </table>
  );
}

/** Reasons why days are not counted, each once. */
export function Gaps({ gaps }: { readonly gaps: readonly Gap[] }) {
  const words = moneyWords.now().gaps;
  if (gaps.length === 0) return null;
  return (
    <ul class="m-gaps">
      {gaps.map((gap) => (
        <li key={gap}>{words[gap]}</li>
      ))}
    </ul>
  );
}

/** How far the sums of all vehicles are. */
export function Reckoning({ share }: { readonly share: number }) {
  return (
    <p class="m-facts" role="status">
      {moneyWords.now().addingUp} <span class="fig">{figures(share * 100)} %</span>
    </p>
  );
}
