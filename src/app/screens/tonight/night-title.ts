import type { Yard } from "../../../records/index.js";
import { nightWindowAt } from "../../../records/map/night-yard.js";
import { isZone, plusDays } from "../../../units/zone.js";
import { nowUtcMs } from "../../state.js";
import { dayAndMonth, figures } from "../../words/format.js";
import { tonightWords } from "../../words/tonight.js";

/** "night of 10 to 11 Feb"; over the end of a month both days carry its name. */
export const nightTitle = (yard: Yard): string => {
  if (!isZone(yard.zone)) return "";
  const { date } = nightWindowAt(nowUtcMs.value, yard.zone);
  const first = date.slice(0, 7) === plusDays(date, 1).slice(0, 7) ? figures(Number(date.slice(8))) : dayAndMonth(date);
  return tonightWords.now().night(first, dayAndMonth(plusDays(date, 1)));
};
