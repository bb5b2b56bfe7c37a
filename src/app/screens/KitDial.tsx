import { Key } from "../parts/keys.js";
import { figures, joined } from "../words/format.js";

export interface DialSide {
  readonly name: string;
  /** What the next size would give; null at the end of the dial. */
  readonly days: number | null;
  readonly turn: () => void;
  readonly says: string;
}

interface Props {
  readonly value: string;
  readonly unit: string;
  readonly less: DialSide;
  readonly more: DialSide;
  readonly words: { readonly days: string; readonly atEnd: string };
}

/** A dial that shows what its neighbours would bring before they are tapped. */
export function KitDial({ value, unit, less, more, words }: Props) {
  return (
    <fieldset class="kit-dial" aria-label={unit}>
      <Turn sign="−" side={less} words={words} />
      <Neighbour side={less} words={words} />
      <p class="v">
        <b class="fig">{value}</b>
        {unit}
      </p>
      <Neighbour side={more} words={words} />
      <Turn sign="+" side={more} words={words} />
    </fieldset>
  );
}

function Turn({ sign, side, words }: { sign: string; side: DialSide; words: Props["words"] }) {
  const ends = side.days === null;
  return (
    <Key
      kind={ends ? "wait" : ""}
      onPress={() => !ends && side.turn()}
      says={
        ends
          ? `${side.says}: ${words.atEnd}`
          : `${side.says}: ${joined(side.name, `${figures(side.days ?? 0)} ${words.days}`)}`
      }
    >
      {sign}
    </Key>
  );
}

function Neighbour({ side, words }: { side: DialSide; words: Props["words"] }) {
  if (side.days === null) return <span class="nb" />;
  return (
    <span class="nb" aria-hidden="true">
      {side.name}
      <b class="fig">{figures(side.days)}</b>
      {words.days}
    </span>
  );
}
