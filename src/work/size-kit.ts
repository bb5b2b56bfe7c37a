import { type SizingYear, sizeYear } from "../calc/sizing/index.js";
import { type KitQuestion, sizingCaseOf } from "../records/map/sizing.js";
import { bad, good, type Outcome } from "../units/outcome.js";

/** Sizes a kit from records, telling how far it is. */
export function sizeKit(question: KitQuestion, onShare: (share: number) => void): Outcome<SizingYear> {
  const laid = sizingCaseOf(question);
  if (!laid.ok) return laid;
  const year = sizeYear(laid.value, { onShare });
  return year ? good(year) : bad({ code: "givenUp", where: "" });
}
