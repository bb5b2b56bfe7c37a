import { vehicles, yards } from "../fleet.js";
import type { ScreenEntry } from "../places.js";
import { settings } from "../settings.js";
import { dayWords } from "../words/day.js";
import { fleetWords } from "../words/fleet.js";
import { kitWords } from "../words/kit.js";
import { moneyWords } from "../words/money.js";
import { phoneWords } from "../words/phone.js";
import { startWords } from "../words/start.js";
import { loadVehicles, RECORD_SCREENS } from "./record-screens.js";
import { Screen as Today } from "./Today.js";

/**
 * Every screen by its name in the path. A screen is one file that exports `Screen`; it is fetched when first asked for, together with its
 * words. The place says which of the four it lies under.
 */
export const SCREENS: Readonly<Record<string, ScreenEntry>> = {
  today: { place: "today", load: async () => ({ Screen: Today }) }, // in the first chunk: it is what the app is opened for
  start: { place: "today", load: () => import("./Start.js"), words: [startWords] },
  "five-taps": { place: "today", load: () => import("./FiveTaps.js"), words: [startWords] },
  gauge: { place: "today", load: () => import("./Gauge.js"), words: [dayWords] },
  load: { place: "today", load: () => import("./Load.js"), words: [dayWords] },
  road: { place: "today", load: () => import("./Road.js"), words: [dayWords] },
  vehicles: { place: "vehicles", load: loadVehicles, words: [fleetWords] },
  ...RECORD_SCREENS,
  phone: { place: "vehicles", load: () => import("./Phone.js"), words: [phoneWords] },
  write: { place: "today", load: () => import("./Write.js"), words: [dayWords] },
  trip: { place: "today", load: () => import("./Trip.js"), words: [dayWords] },
  money: { place: "money", load: () => import("./money/Money.js"), words: [moneyWords] },
  "money-month": { place: "money", load: () => import("./money/Month.js"), words: [moneyWords] },
  payback: { place: "money", load: () => import("./money/Payback.js"), words: [moneyWords] },
  report: { place: "money", load: () => import("./money/Report.js"), words: [moneyWords] },
  "money-figures": { place: "money", load: () => import("./money/Figures.js"), words: [moneyWords] },
  "money-account": { place: "money", load: () => import("./money/Account.js"), words: [moneyWords] },
  kit: { place: "vehicles", load: () => import("./Kit.js"), words: [kitWords] },
  "kit-sheet": { place: "vehicles", load: () => import("./KitSheet.js"), words: [kitWords] },
  compare: { place: "vehicles", load: () => import("./Compare.js"), words: [kitWords] },
  moves: { place: "today", load: () => import("./Moves.js"), words: [kitWords] },
  "hold-up": { place: "today", load: () => import("./HoldUp.js"), words: [dayWords] },
};

const FIRST = { driver: "today", yard: "tonight", owner: "money", fitter: "kit" } as const;

/** Where the app opens: at the four ways in until something is known, then where the role looks first. */
export function firstScreen(): string {
  if (vehicles.value.length === 0 && yards.value.length === 0) return "start";
  const wanted = FIRST[settings.value.role];
  return wanted in SCREENS ? wanted : "today";
}
