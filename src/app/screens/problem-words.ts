import type { Problem } from "../../units/outcome.js";
import type { FleetWords } from "../words/fleet/en.js";
import { figures } from "../words/format.js";

/** A problem of a record in words; the place it is at is said by the caller. */
export function problemWords(words: FleetWords, problem: Problem | null): string {
  if (!problem) return "";
  const told = words.problems;
  const figure = (name: string): string => {
    const value = problem.figures?.[name];
    return typeof value === "number" ? figures(value, Number.isInteger(value) ? 0 : 2) : String(value ?? "");
  };
  switch (problem.code) {
    case "tooSmall":
      return told.tooSmall(figure("least"));
    case "tooBig":
      return told.tooBig(figure("most"));
    case "notOneOf":
      return told.notOneOf(figure("allowed"));
    case "andMore":
      return told.more(Number(problem.figures?.count ?? 0));
    default: {
      const plainWords: Readonly<Record<string, string>> = told.codes;
      return plainWords[problem.code] ?? told.other(problem.code);
    }
  }
}
