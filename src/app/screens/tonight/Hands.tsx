import { useState } from "preact/hooks";
import type { NightRecord, Socket, Vehicle, Yard } from "../../../records/index.js";
import type { NightShown } from "../../../work/night-calls.js";
import { Icon } from "../../parts/Icon.js";
import { swap } from "../../parts/icons-more.js";
import { Key } from "../../parts/keys.js";
import { Plate } from "../../parts/Plate.js";
import { plain } from "../../words/format.js";
import { tonightWords } from "../../words/tonight.js";
import { timeText } from "./Board.js";
import { type Hand, handsOf, plateOfStay, socketName } from "./night-facts.js";
import { markDone } from "./night-state.js";

interface HandsProps {
  readonly yard: Yard;
  readonly shown: NightShown;
  readonly record: NightRecord | null;
  readonly sockets: readonly Socket[];
  readonly vehicles: readonly Vehicle[];
  /** How many walks are shown before the rest is asked for. */
  readonly most: number;
}

/** The watchman's only question: when, which socket, who out, who in. */
export function NextHands(props: HandsProps) {
  const words = tonightWords.now();
  const [open, setOpen] = useState(false);
  const hands = handsOf(props.shown, props.record);
  const shown = open ? hands : hands.slice(0, props.most);
  return (
    <section class={props.most === 1 ? "hands one" : "hands many"} aria-label={words.hands}>
      {props.most > 1 && <h2>{words.hands}</h2>}
      {hands.length === 0 && <p class="night-note">{words.noHands}</p>}
      {shown.map((hand, i) => (
        <Walk key={`${hand.atUtcMs} ${hand.socketId}`} {...props} hand={hand} main={i === 0} />
      ))}
      {props.most > 1 && hands.length > props.most && !open && (
        <Key kind="plain" onPress={() => setOpen(true)}>
          {plain(words.more(hands.length))}
        </Key>
      )}
    </section>
  );
}

/** The next walk comes up where the last one stood: a second tap of the same finger is not meant for it. */
const SECOND_TAP_MS = 500;
let lastDoneMs = Number.NEGATIVE_INFINITY;

function Walk({
  hand,
  main,
  yard,
  shown,
  sockets,
  vehicles,
}: HandsProps & { readonly hand: Hand; readonly main: boolean }) {
  const words = tonightWords.now();
  const socket = socketName(sockets, hand.socketId);
  const done = async () => {
    if (performance.now() - lastDoneMs < SECOND_TAP_MS) return;
    await markDone(yard, shown, {
      strokes: [
        ...(hand.out ? [{ stayId: hand.out, what: "unplugged" as const }] : []),
        ...(hand.in ? [{ stayId: hand.in, what: "pluggedIn" as const }] : []),
      ],
      says: words.doneSays(socket),
    });
    lastDoneMs = performance.now();
  };
  const plate = (stayId: string) => plateOfStay(shown, vehicles, stayId);
  return (
    <div class="hand">
      <span class="hand-time fig">{timeText(hand.atUtcMs, yard.zone)}</span>
      <span class="hand-socket">
        {words.socket} <b class="fig">{socket}</b>
      </span>
      {hand.out && <Side plate={plate(hand.out)} word={words.out} hollow />}
      {hand.out && hand.in && <Icon of={swap} size={26} />}
      {hand.in && <Side plate={plate(hand.in)} word={words.in} />}
      <Key kind={main ? "main" : ""} onPress={done}>
        {words.done}
      </Key>
    </div>
  );
}

const Side = ({ plate, word, hollow = false }: { plate: string; word: string; hollow?: boolean }) => (
  <span class="hand-side">
    <Plate number={plate} size="s" hollow={hollow} />
    <small>{word}</small>
  </span>
);
