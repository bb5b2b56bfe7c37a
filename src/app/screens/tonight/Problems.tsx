import { useState } from "preact/hooks";
import type { Yard } from "../../../records/index.js";
import type { Problem } from "../../../units/outcome.js";
import { edited } from "../../edited.js";
import { book, keep, listed, vehicleOf } from "../../fleet.js";
import { Key } from "../../parts/keys.js";
import { NumberPad } from "../../parts/NumberPad.js";
import { Say } from "../../parts/Say.js";
import { go } from "../../router.js";
import { tonightWords } from "../../words/tonight.js";
import { problemText } from "./say-night.js";

const MOST = 6;

/** What of the yard's figures stands in the way, each with the step that mends it. */
export function Problems({ yard, problems }: { yard: Yard; problems: readonly Problem[] }) {
  const words = tonightWords.now();
  const [asking, setAsking] = useState(false);
  const names = {
    plateOf: (id: string) => vehicleOf(id)?.plate ?? id,
    socketOf: (id: string) => listed(book.value, "socket").find((socket) => socket.id === id)?.name ?? id,
  };
  if (problems.length === 0) return null;
  return (
    <section class="night-problems">
      {problems.slice(0, MOST).map((problem) => (
        <Key
          key={`${problem.code} ${problem.where}`}
          kind="alt wide"
          onPress={() => (problem.code === "noMeterLimit" ? setAsking(true) : go(wayTo(problem)))}
        >
          <span>
            <Say text={problemText(words, problem, names)} />
          </span>
        </Key>
      ))}
      {asking && (
        <NumberPad
          title={words.problems.limitAsk}
          unit="kW"
          least={0.1}
          most={2000}
          decimals={1}
          onClose={() => setAsking(false)}
          onKeep={(kw) => {
            setAsking(false);
            void keep(
              edited("yard", yard.id, (now) => ({ ...now, siteLimitKw: kw })),
              words.problems.limitKept(kw),
            );
          }}
        />
      )}
    </section>
  );
}

function wayTo({ where }: Problem): string {
  const [list, id = ""] = where.split(".");
  return list === "vehicles" ? `sheet/${id}` : "yard";
}
