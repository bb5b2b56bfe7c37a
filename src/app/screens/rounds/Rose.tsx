import { Key } from "../../parts/keys.js";
import { roundsWords } from "../../words/rounds.js";

/** Eight ways around a middle that says "changes": a compass to press, north upwards. */
const PLACES = [315, 0, 45, 270, null, 90, 225, 180, 135] as const;

export function Rose(props: {
  readonly title: string;
  readonly value: number | null;
  readonly onPick: (deg: number | null) => void;
}) {
  const words = roundsWords.now();
  const near = props.value === null ? null : (Math.round(props.value / 45) % 8) * 45;
  return (
    <section class="ask">
      <h2>{props.title}</h2>
      <fieldset class="rose" aria-label={props.title}>
        {PLACES.map((deg) =>
          deg === null ? (
            <Key key="any" chosen={near === null} onPress={() => props.onPick(null)}>
              {words.anyWay}
            </Key>
          ) : (
            <Key key={deg} chosen={deg === near} says={words.compass[deg / 45] ?? ""} onPress={() => props.onPick(deg)}>
              <svg width="26" height="26" viewBox="0 0 24 24" fill="currentColor" aria-hidden="true">
                <path d="M12 2 20 15h-5v7H9v-7H4z" transform={`rotate(${deg} 12 12)`} />
              </svg>
            </Key>
          ),
        )}
      </fieldset>
    </section>
  );
}
