import { useEffect, useState } from "preact/hooks";
import { askDay } from "../../work/ask-day.js";
import type { Moved } from "../../work/what-if.js";
import { answerBroke, caseOf } from "../answers.js";
import { book } from "../fleet.js";
import { Key } from "../parts/keys.js";
import { Page } from "../parts/Page.js";
import { Say } from "../parts/Say.js";
import { go } from "../router.js";
import { nowUtcMs } from "../state.js";
import { kitWords } from "../words/kit.js";
import { DayTop } from "./DayTop.js";
import { type DayContext, dayContext } from "./day-context.js";
import "./kit.css";

export const words = [kitWords];

/** What makes the answer unsure, and what costs km. */
export function Screen() {
  const context = dayContext();
  return context ? <MovesOf context={context} /> : null;
}

function MovesOf({ context }: { context: DayContext }) {
  const words = kitWords.now().moves;
  const { vehicle, yard } = context;
  const [moved, setMoved] = useState<Moved | null>(null);
  useEffect(() => {
    const control = new AbortController();
    askDay("moves", caseOf(book.value, vehicle, yard, nowUtcMs.peek()), control.signal)
      .then(setMoved)
      .catch((why: unknown) => {
        if (!control.signal.aborted) answerBroke.value = why;
      });
    return () => control.abort();
  }, [vehicle, yard]);
  return (
    <Page {...DayTop(context, words.title)} narrow>
      {moved === null && <p class="kit-working">{words.working}</p>}
      {moved && moved.answer.leaveUtcMs === null && <p class="kit-working">{words.noAnswer}</p>}
      {moved && moved.answer.leaveUtcMs !== null && (
        <>
          <Doubt shares={moved.answer.doubtShares} />
          <Costs moved={moved} />
        </>
      )}
    </Page>
  );
}

const PARTS = ["start", "drive", "sky", "other"] as const;
/** From here on one thing makes most of the doubt, and typing it is worth more than all else. */
const MOST = 0.4;

function Doubt({ shares }: { shares: Moved["answer"]["doubtShares"] }) {
  const words = kitWords.now().moves;
  const sorted = [...PARTS].sort((a, b) => shares[b] - shares[a]);
  return (
    <section>
      <h2 class="asks">{words.doubt}</h2>
      <ul class="shares">
        {sorted.map((part) => (
          <li key={part}>
            <span>
              {words.parts[part]}
              {shares[part] > 0.5 && <small> ({words.most})</small>}
            </span>
            <span class="track">
              <span class="part" style={{ width: `${Math.round(shares[part] * 100)}%` }} />
            </span>
          </li>
        ))}
      </ul>
      <div class="ways">
        {shares.start > MOST && <Key onPress={() => go("gauge")}>{words.typeGauge}</Key>}
        {shares.sky > MOST && <Key onPress={() => go("sky")}>{words.saySky}</Key>}
      </div>
    </section>
  );
}

function Costs({ moved }: { moved: Moved }) {
  const words = kitWords.now().moves;
  return (
    <section>
      <h2 class="asks">{words.costs}</h2>
      <ul class="costs">
        {moved.levers.map(({ change, costKm }) => (
          <li key={change}>
            {words.changes[change]}
            <b>{costKm < 0.05 ? words.hardly : <Say text={words.km(costKm)} />}</b>
          </li>
        ))}
      </ul>
    </section>
  );
}
