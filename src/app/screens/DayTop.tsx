import type { PageProps } from "../parts/Page.js";
import { here } from "../state.js";
import { core } from "../words/core.js";
import { dayShort } from "../words/format.js";
import type { DayContext } from "./day-context.js";

/** Head of a screen one step under Today: back, the plate, what is asked, the day. */
export function DayTop({ vehicle, date }: DayContext, title: string): Omit<PageProps, "children"> {
  const day = date > here.value.date ? core.now().forTomorrow(dayShort(date)) : dayShort(date);
  return { title, sub: day, plate: vehicle.plate, above: "today", place: "today" };
}
