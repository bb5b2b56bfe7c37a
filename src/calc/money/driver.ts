import type { Problem } from "../../units/outcome.js";
import type { CivilDate } from "../../units/zone.js";
import { type Minor, toMinor } from "./minor.js";

/** What a line of a driver's account is about. Four make the driver owe, a payment pays; deposit and takings are kept apart. */
export type AccountKind =
  | "rent"
  | "energy"
  | "instalment"
  | "damage"
  | "payment"
  | "depositIn"
  | "depositBack"
  | "takings";

/** One written line. It is never edited: a later line names it in `corrects` and says what it should have been; 0 strikes it out. */
export interface AccountLine {
  readonly id: string;
  readonly date: CivilDate;
  readonly kind: AccountKind;
  readonly amountMinor: Minor;
  readonly currency: string;
  readonly corrects: string | null;
  readonly writtenUtcMs: number;
}
export interface AccountRow {
  readonly line: AccountLine;
  /** What counts: the amount of the last correction. */
  readonly amountMinor: Minor;
  /** Lines that corrected this one, in the order they were written. */
  readonly correctedBy: readonly string[];
  readonly owedMinor: Minor;
  readonly depositMinor: Minor;
}
export interface Account {
  readonly currency: string;
  readonly rows: readonly AccountRow[];
  /** Positive: the driver owes; negative: the owner does. */
  readonly owedMinor: Minor;
  readonly depositMinor: Minor;
}

const OWES: Readonly<Record<AccountKind, 1 | -1 | 0>> = {
  rent: 1,
  energy: 1,
  instalment: 1,
  damage: 1,
  payment: -1,
  depositIn: 0,
  depositBack: 0,
  takings: 0,
};
const DEPOSIT: Readonly<Partial<Record<AccountKind, 1 | -1>>> = { depositIn: 1, depositBack: -1 };

/** Follows a correction back to the line it is about; null when it names none or goes round in a ring. */
function rootOf(line: AccountLine, byId: ReadonlyMap<string, AccountLine>): AccountLine | null {
  const seen = new Set<string>();
  let at: AccountLine | undefined = line;
  while (at && at.corrects !== null && !seen.has(at.id)) {
    seen.add(at.id);
    at = byId.get(at.corrects);
  }
  return at && at.corrects === null ? at : null;
}

/**
 * Accounts by currency, line by line with the balance after each. Of several corrections the one written last counts.
 * Problems: `correctsNothing`, `correctsOtherKind` (kind or currency differ), `depositNegative`.
 */
export function driverAccounts(lines: readonly AccountLine[]): {
  readonly accounts: readonly Account[];
  readonly problems: readonly Problem[];
} {
  const byId = new Map(lines.map((line) => [line.id, line]));
  const corrections = new Map<string, AccountLine[]>();
  const problems: Problem[] = [];
  for (const line of [...lines].sort((a, b) => a.writtenUtcMs - b.writtenUtcMs)) {
    if (line.corrects === null) continue;
    const root = rootOf(line, byId);
    const where = `lines.${line.id}`;
    if (!root) problems.push({ code: "correctsNothing", where, figures: { corrects: line.corrects } });
    else if (root.kind !== line.kind || root.currency !== line.currency)
      problems.push({ code: "correctsOtherKind", where, figures: { corrects: root.id } });
    else corrections.set(root.id, [...(corrections.get(root.id) ?? []), line]);
  }
  const roots = lines
    .filter((line) => line.corrects === null)
    .sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : a.writtenUtcMs - b.writtenUtcMs));
  const accounts = [...new Set(roots.map((line) => line.currency))].map((currency) =>
    account(
      currency,
      roots.filter((line) => line.currency === currency),
      corrections,
    ),
  );
  const short = accounts.flatMap(({ rows }) => rows.filter((row) => row.depositMinor < 0).slice(0, 1));
  for (const row of short)
    problems.push({ code: "depositNegative", where: `lines.${row.line.id}`, figures: { minor: row.depositMinor } });
  return { accounts, problems };
}

function account(
  currency: string,
  roots: readonly AccountLine[],
  corrections: ReadonlyMap<string, readonly AccountLine[]>,
): Account {
  let owedMinor = 0;
  let depositMinor = 0;
  const rows = roots.map((line): AccountRow => {
    const by = corrections.get(line.id) ?? [];
    const amountMinor = by.at(-1)?.amountMinor ?? line.amountMinor;
    owedMinor += OWES[line.kind] * amountMinor;
    depositMinor += (DEPOSIT[line.kind] ?? 0) * amountMinor;
    return { line, amountMinor, correctedBy: by.map(({ id }) => id), owedMinor, depositMinor };
  });
  return { currency, rows, owedMinor, depositMinor };
}

/** What is left of a day's takings at night: after what was paid out, and after the money for the next set is put by. */
export function leftAtNight(day: {
  readonly takingsMinor: Minor;
  readonly rentMinor: Minor;
  readonly energyMinor: Minor;
  readonly instalmentMinor: Minor;
  readonly otherMinor: Minor;
  readonly km: number;
  readonly setAsidePerKm: number;
}): { readonly leftMinor: Minor; readonly setAsideMinor: Minor; readonly ownMinor: Minor } {
  const leftMinor = day.takingsMinor - day.rentMinor - day.energyMinor - day.instalmentMinor - day.otherMinor;
  const setAsideMinor = toMinor(day.km * day.setAsidePerKm);
  return { leftMinor, setAsideMinor, ownMinor: leftMinor - setAsideMinor };
}
