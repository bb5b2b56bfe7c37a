import { useEffect, useRef } from "preact/hooks";
import type { Problem } from "../../units/outcome.js";
import { joined } from "../words/format.js";
import { phoneWords } from "../words/phone.js";
import { PLACE_WORDS, placeTold } from "./phone-problems.js";

const SHOWN_PLACES = 40;

export const loadPlaceWords = () => Promise.all(PLACE_WORDS.map((group) => group.load()));

/** Every place of a file that is not taken, by vehicle and field, and what to do about it. */
export function BringProblems({ problems, file }: { readonly problems: readonly Problem[]; readonly file: unknown }) {
  const words = phoneWords.now();
  const top = useRef<HTMLElement>(null);
  useEffect(() => top.current?.scrollIntoView({ block: "start" }), [problems]);
  return (
    <section ref={top} class="asking" role="alert">
      <p>{words.broken(problems.length)}</p>
      <ol class="places-list">
        {problems.slice(0, SHOWN_PLACES).map((problem, i) => {
          const { whose, field, what } = placeTold(problem, file);
          return (
            <li key={`${i}${problem.where}`}>
              {(whose || field) && <b>{joined(whose, field)}: </b>}
              {what}
            </li>
          );
        })}
      </ol>
      {problems.length > SHOWN_PLACES && <p>{words.problems.more(problems.length - SHOWN_PLACES)}</p>}
      {problems.some(({ where }) => where !== "") && <p>{words.problems.mend}</p>}
    </section>
  );
}
