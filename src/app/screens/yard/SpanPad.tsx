import { useState } from "preact/hooks";
import { editWords } from "../../words/edit.js";
import { ClockPad } from "../edit/ClockPad.js";

/** Two times, one after the other; the second may lie past midnight. */
export function SpanPad(props: {
  readonly title: string;
  readonly from: number;
  readonly to: number;
  readonly wholeHours?: boolean;
  readonly onKeep: (from: number, to: number) => void;
  readonly onClose: () => void;
}) {
  const words = editWords.now();
  const [from, setFrom] = useState<number | null>(null);
  const common = { wholeHours: props.wholeHours ?? false, onClose: props.onClose };
  if (from === null)
    return (
      <ClockPad
        key="first"
        title={`${props.title}: ${words.from}`}
        now={props.from}
        next
        onKeep={setFrom}
        {...common}
      />
    );
  return (
    <ClockPad
      key="second"
      title={`${props.title}: ${words.to}`}
      now={props.to}
      midnight
      onKeep={(to) => props.onKeep(from, to)}
      {...common}
    />
  );
}
