import { useState } from "preact/hooks";
import { readRecord, type Socket, type Yard } from "../../../records/index.js";
import { edited } from "../../edited.js";
import { book, byNumber, type Change, keep, listed, newId } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";

import { Key } from "../../parts/keys.js";
import { editWords } from "../../words/edit.js";
import { figures } from "../../words/format.js";
import { yardWords } from "../../words/yard.js";
import { cross, plus } from "../edit/drawings.js";
import { LadderRow } from "../edit/LadderRow.js";
import { problemText } from "../edit/problem-text.js";
import { Choices, NameRow, Row } from "../edit/rows.js";

const KW = [1, 1.5, 2.3, 3.3, 3.7, 7.4];
const AMPS = [6, 10, 16, 20, 32, 40];
const HOW_MANY = [1, 2, 4, 7, 14];
const HOUSE_KW = 2.3; // a 10 A house socket at 230 V

export const socketsOf = (yard: Yard): readonly Socket[] =>
  [...listed(book.value, "socket")]
    .filter((socket) => socket.yardId === yard.id)
    .sort((a, b) => byNumber(a.name, b.name));

/** A socket like the last one, with the next number. */
function nextSockets(yard: Yard, count: number): Socket[] {
  const have = socketsOf(yard);
  const like = have.at(-1);
  const vehicle = listed(book.value, "vehicle").find((one) => one.yardId === yard.id);
  const taken = new Set(have.map((socket) => socket.name));
  const free = Array.from({ length: have.length + count }, (_, n) => String(n + 1)).filter((name) => !taken.has(name));
  return free.slice(0, count).map((name) => ({
    id: newId(),
    v: 1,
    yardId: yard.id,
    name,
    limitKw: like?.limitKw ?? HOUSE_KW,
    plug: like?.plug ?? vehicle?.charger.plug ?? "house socket",
    timer: like?.timer ?? false,
  }));
}

/** The places to plug in; one is open at a time. */
export function Sockets({ yard }: { yard: Yard }) {
  const words = yardWords.now();
  const [open, setOpen] = useState<string | null>(null);
  const sockets = socketsOf(yard);
  const add = (count: number) => {
    return keep(() => nextSockets(yard, count).map((put): Change => ({ kind: "socket", put })), words.socketsAdded);
  };
  return (
    <>
      {sockets.map((socket) => (
        <div key={socket.id} class={`part ${open === socket.id ? "open" : ""}`}>
          <button
            type="button"
            class="part-row"
            aria-expanded={open === socket.id}
            onClick={() => setOpen(open === socket.id ? null : socket.id)}
          >
            <span class="no fig">{socket.name.slice(0, 3)}</span>
            <span class="what">
              <b>{words.socketNo(socket.name)}</b>
              <small>
                {[`${figures(socket.limitKw, 1)} kW`, socket.plug, words.timers[socket.timer ? "yes" : "no"]].join(
                  ", ",
                )}
              </small>
            </span>
          </button>
          {open === socket.id && <SocketFields socket={socket} yard={yard} />}
        </div>
      ))}
      {sockets.length === 0 ? (
        <Row title={words.howMany}>
          <fieldset class="ks five" aria-label={words.howMany}>
            {HOW_MANY.map((count) => (
              <Key key={count} onPress={() => add(count)}>
                <span class="fig">{figures(count)}</span>
              </Key>
            ))}
          </fieldset>
        </Row>
      ) : (
        <div class="acts adding">
          <Key onPress={() => add(1)}>
            <Icon of={plus} size={20} />
            {words.addSocket}
          </Key>
        </div>
      )}
    </>
  );
}

function SocketFields({ socket, yard }: { socket: Socket; yard: Yard }) {
  const words = yardWords.now();
  const putWith = (to: (now: Socket) => Socket) => keep(edited("socket", socket.id, to), words.kept);
  const put = (more: Partial<Socket>) => putWith((now) => ({ ...now, ...more }));
  const refuses = (more: Partial<Socket>): string | null => {
    const seen = readRecord("socket", { ...socket, ...more });
    return seen.ok ? null : problemText(editWords.now(), seen.problems[0] ?? { code: "other", where: "" });
  };
  return (
    <div class="part-fields">
      <LadderRow
        title={words.socketKw}
        unit="kw"
        decimals={1}
        value={socket.limitKw}
        ladder={KW}
        refuses={(limitKw) => refuses({ limitKw })}
        onPick={(limitKw) => put({ limitKw })}
      />
      <NameRow title={words.socketName} name={socket.name} onName={(name) => put({ name })} />
      <NameRow
        title={words.plug}
        name={socket.plug}
        offers={plugsOf(yard)}
        longest={30}
        onName={(plug) => put({ plug })}
      />
      <Row title={words.timer}>
        <Choices
          of={["no", "yes"] as const}
          words={words.timers}
          chosen={socket.timer ? "yes" : "no"}
          asks={words.timer}
          onPick={(value) => put({ timer: value === "yes" })}
        />
      </Row>
      <LadderRow
        title={words.breaker}
        unit="amp"
        value={socket.breakerA ?? null}
        ladder={AMPS}
        unset={{ word: words.noBreaker, onPress: () => putWith(({ breakerA: _amps, ...others }) => others) }}
        refuses={(breakerA) => refuses({ breakerA })}
        onPick={(breakerA) => put({ breakerA })}
      />
      <div class="acts moves">
        <Key onPress={() => keep([{ kind: "socket", drop: socket.id }], words.socketGone)}>
          <Icon of={cross} size={20} />
          {words.removeSocket}
        </Key>
      </div>
    </div>
  );
}

/** Plugs that are in use in the yard. */
function plugsOf(yard: Yard): readonly string[] {
  const vehicles = listed(book.value, "vehicle").filter((one) => one.yardId === yard.id);
  return [...new Set([...socketsOf(yard).map((one) => one.plug), ...vehicles.map((one) => one.charger.plug)])];
}
