import type { Problem } from "../../../units/outcome.js";
import type { MoneyWords } from "../../words/money/en.js";

const LOAN_CODES = ["loanAmount", "loanRate", "loanTerm", "loanDates"];

/** What does not fit, in words, with the way on. */
export function moneyProblem(words: MoneyWords, problem: Problem): string {
  const { problems } = words;
  if (problem.code === "dayTwice") return problems.dayTwice(problem.where.slice("days.".length));
  if (LOAN_CODES.includes(problem.code)) return problems.loan;
  const plain = problem.code as Exclude<keyof typeof problems, "dayTwice">;
  return plain in problems ? problems[plain] : problems.other;
}

/** Each sentence once, however often its cause is met. */
export const moneyProblems = (words: MoneyWords, problems: readonly Problem[]): readonly string[] => [
  ...new Set(problems.map((problem) => moneyProblem(words, problem))),
];
