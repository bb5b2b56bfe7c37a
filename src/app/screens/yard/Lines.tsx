import { Icon } from "../../parts/Icon.js";
import { Key } from "../../parts/keys.js";
import { inDigits } from "../../words/format.js";
import { cross } from "../edit/drawings.js";

/** A list of times: a key that changes each, and one that takes it away. */
export function Lines(props: {
  readonly lines: readonly string[];
  readonly removeWord: string;
  readonly onPress?: (n: number) => void;
  readonly onDrop: (n: number) => void;
}) {
  return (
    <ul class="lines">
      {props.lines.map((line, n) => (
        <li key={line}>
          {props.onPress ? (
            <Key onPress={() => props.onPress?.(n)}>
              <span class="fig">{inDigits(line)}</span>
            </Key>
          ) : (
            <b>{line}</b>
          )}
          <Key onPress={() => props.onDrop(n)} says={`${props.removeWord}: ${line}`}>
            <Icon of={cross} size={20} />
          </Key>
        </li>
      ))}
    </ul>
  );
}
