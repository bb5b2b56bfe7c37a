import type { Problem } from "../../../units/outcome.js";
import { Key } from "../../parts/keys.js";
import { go } from "../../router.js";
import { moneyWords } from "../../words/money.js";
import { moneyProblems } from "./problem-words.js";

/** What does not fit, with the key to put it right; without one where the figures are at hand. */
export function Problems({ problems, vehicleId }: { problems: readonly Problem[]; vehicleId: string | null }) {
  const words = moneyWords.now();
  const says = moneyProblems(words, problems);
  if (says.length === 0) return null;
  return (
    <div class="m-problems" role="note">
      {says.map((one) => (
        <p key={one}>{one}</p>
      ))}
      {vehicleId !== null && <Key onPress={() => go(`money-figures/${vehicleId}`)}>{words.changeFigure}</Key>}
    </div>
  );
}
