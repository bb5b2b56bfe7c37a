import type { ComponentChildren } from "preact";
import { Fitted } from "../../parts/Fitted.js";
import { Key } from "../../parts/keys.js";
import { figures } from "../../words/format.js";
import { tonightWords } from "../../words/tonight.js";
import { Board, type BoardWords, boardHeight, DESK, PHONE } from "./Board.js";
import { type BoardGiven, banksOf, boardModelOf } from "./board-model.js";

export function boardWords(short: boolean): BoardWords {
  const { board } = tonightWords.now();
  return { ...board, asleep: short ? board.asleepShort : board.asleep };
}

const PHONE_ROWS = 7;
/** Sockets drawn at once on a desk; more stand in banks. */
const DESK_ROWS = 20;

/** The picture of one bank, and the keys under it. */
export function BoardView(props: {
  readonly given: BoardGiven;
  readonly bank: number;
  readonly onBank: (bank: number) => void;
  readonly keys: ComponentChildren;
}) {
  const model = boardModelOf(props.given);
  const wide = innerWidth >= 900;
  const kind = wide ? DESK : PHONE;
  const banks = banksOf(model, wide ? DESK_ROWS : PHONE_ROWS);
  const rows = banks[Math.min(props.bank, banks.length - 1)] ?? [];
  const guess = { width: wide ? 860 : 360, height: boardHeight(rows.length, { ...kind, width: 360 }) };
  return (
    <>
      <Fitted class="board-room" guess={guess}>
        {(box) => (
          <Board model={model} rows={rows} size={{ ...kind, width: box.width }} words={boardWords(!wide)} id="night" />
        )}
      </Fitted>
      <div class="night-keys">
        {banks.length > 1 &&
          banks.map((each, i) => (
            <Key key={each[0]?.socketId ?? i} chosen={i === props.bank} onPress={() => props.onBank(i)}>
              {tonightWords.now().bank(each[0]?.name ?? figures(i + 1), each[each.length - 1]?.name ?? "")}
            </Key>
          ))}
        {props.keys}
      </div>
    </>
  );
}
