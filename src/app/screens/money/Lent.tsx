import { KeyRow } from "../../parts/keys.js";
import { set, settings } from "../../settings.js";
import { moneyWords } from "../../words/money.js";

/** Whose hands the phone is in: lent out, the owner's money is not among the places. */
export function Lent() {
  const words = moneyWords.now().hands;
  return (
    <section class="ask">
      <h2>{words.asks}</h2>
      <KeyRow
        asks={words.asks}
        chosen={settings.value.lent ? "others" : "mine"}
        onPick={(to) => set({ lent: to === "others" })}
        choices={[
          { value: "mine", word: words.mine },
          { value: "others", word: words.others },
        ]}
      />
      <p class="hint">{words.hint}</p>
    </section>
  );
}
