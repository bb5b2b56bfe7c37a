import type { Problem } from "../../../units/outcome.js";
import type { EditWords } from "../../words/edit/en.js";
import { figures, inDigits } from "../../words/format.js";
import { type NumberSpec, shownOf } from "./spec.js";

const numberText = (value: number): string => figures(value, Number.isInteger(value) ? 0 : Math.abs(value) < 1 ? 2 : 1);

/** A problem as one plain sentence with what to do; a limit is told in the unit the field is shown in. */
export function problemText(
  words: EditWords,
  problem: Problem,
  of?: Pick<NumberSpec, "times" | "unit" | "unitText">,
): string {
  const { code, figures: known = {} } = problem;
  const unit = of?.unitText ?? words.units[of?.unit ?? "none"];
  const limit = (value: number) => numberText(shownOf(of ?? {}, value));
  if (code === "tooSmall") return words.atLeast(limit(Number(known.least)), unit).replaceAll(" .", ".");
  if (code === "tooBig") return words.atMost(limit(Number(known.most)), unit).replaceAll(" .", ".");
  const figure = (name: string): string => {
    const value = known[name];
    if (typeof value !== "number") return String(value ?? "");
    return name === "hour" ? `${figures(value)}:00` : numberText(value);
  };
  const told = words.problems;
  const found = Object.hasOwn(told, code) ? told[code as keyof typeof told] : told.other;
  return inDigits(found(figure));
}
