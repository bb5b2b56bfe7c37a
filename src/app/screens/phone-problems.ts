import type { Problem } from "../../units/outcome.js";
import { figures } from "../words/format.js";
import type { PhoneWords } from "../words/phone/en.js";

/** One place of a file that is not understood, in words: where, and what. */
export function placeWords(words: PhoneWords, problem: Problem): { where: string; what: string } {
  const told = words.problems;
  const figure = (name: string): string => {
    const value = problem.figures?.[name];
    return typeof value === "number" ? figures(value, Number.isInteger(value) ? 0 : 2) : String(value ?? "");
  };
  const codes: Readonly<Record<string, string>> = told.codes;
  const what = (): string => {
    if (problem.code === "tooLarge") return words.tooLarge;
    if (problem.code === "tooSmall") return told.tooSmall(figure("least"));
    if (problem.code === "tooBig") return told.tooBig(figure("most"));
    if (problem.code === "notOneOf") return told.notOneOf(figure("allowed"));
    if (problem.code === "andMore") return told.more(Number(problem.figures?.count ?? problem.figures?.more ?? 0));
    return codes[problem.code] ?? told.other(problem.code);
  };
  return { where: problem.where, what: what() };
}
