import { DOUBT_FIELDS, type DoubtField, type Doubts, moved, ONE_IN_TEN } from "./payback.js";
import { type YearTerms, yearMoney } from "./saving.js";

/** What one doubtful figure does to a year's all-in saving when it alone is low or high. */
export interface Swing {
  readonly field: DoubtField;
  readonly likelyValue: number;
  readonly lowValue: number;
  readonly highValue: number;
  readonly savingAtLow: number;
  readonly savingAtHigh: number;
  readonly swing: number;
}

/** All doubtful figures, the one that would change the saving most first: each goes from its one-in-ten low to its one-in-ten high. */
export function swings(terms: YearTerms, doubts: Doubts): readonly Swing[] {
  return DOUBT_FIELDS.map((field) => {
    const low = moved(terms, doubts, { [field]: -ONE_IN_TEN });
    const high = moved(terms, doubts, { [field]: ONE_IN_TEN });
    const [savingAtLow, savingAtHigh] = [yearMoney(low).allIn, yearMoney(high).allIn];
    return {
      field,
      likelyValue: terms[field],
      lowValue: low[field],
      highValue: high[field],
      savingAtLow,
      savingAtHigh,
      swing: Math.abs(savingAtHigh - savingAtLow),
    };
  }).sort((a, b) => b.swing - a.swing);
}

/** How far a figure may be searched for the point where it starts to pay: a tenth to ten times what it is. */
const REACH = 10;

/**
 * Value of one figure at which the year's all-in saving is `wanted` (0: neither gain nor loss), all else as it is; null when no value
 * from a tenth to ten times brings it about.
 */
export function breakEven(terms: YearTerms, field: DoubtField, wanted = 0): number | null {
  const top = field === "sunShare" ? 1 : field === "workDaysPerYear" ? 366 : terms[field] * REACH;
  let [low, high] = [terms[field] / REACH, top];
  const at = (value: number): number => yearMoney({ ...terms, [field]: value }).allIn - wanted;
  const rising = at(high) > at(low);
  if (Math.sign(at(low)) * Math.sign(at(high)) > 0 || terms[field] <= 0) return null;
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (at(middle) > 0 === rising) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
