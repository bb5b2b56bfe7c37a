import { vehicles, yards } from "../fleet.js";
import type { ScreenEntry } from "../places.js";
import { settings } from "../settings.js";
import { startWords } from "../words/start.js";
import { Screen as Today } from "./Today.js";

/** The place Vehicles: the sheet of the only one, or the list. */
async function loadVehicles(): ReturnType<ScreenEntry["load"]> {
  if (vehicles.value.length !== 1) return import("./Vehicles.js");
  const { OneVehicle, words } = await import("./sheet/Sheet.js");
  return { Screen: OneVehicle, words };
}

/**
 * Every screen by its name in the path. A screen is one file that exports `Screen` and the `words` it needs beyond the core; it is fetched
 * when first asked for. The place says which of the four it lies under.
 */
export const SCREENS: Readonly<Record<string, ScreenEntry>> = {
  today: { place: "today", load: async () => ({ Screen: Today }) }, // in the first chunk: it is what the app is opened for
  start: { place: "today", load: () => import("./Start.js"), words: [startWords] },
  "five-taps": { place: "today", load: () => import("./FiveTaps.js"), words: [startWords] },
  gauge: { place: "today", load: () => import("./Gauge.js") },
  sky: { place: "today", load: () => import("./sky/Sky.js") },
  load: { place: "today", load: () => import("./Load.js") },
  road: { place: "today", load: () => import("./Road.js") },
  write: { place: "today", load: () => import("./Write.js") },
  trip: { place: "today", load: () => import("./Trip.js") },
  rest: { place: "today", load: () => import("./Rest.js") },
  turn: { place: "today", load: () => import("./Turn.js") },
  moves: { place: "today", load: () => import("./Moves.js") },
  "hold-up": { place: "today", load: () => import("./HoldUp.js") },
  tonight: { place: "tonight", load: () => import("./tonight/Screen.js") },
  "night-vehicle": { place: "tonight", load: () => import("./tonight/VehicleScreen.js") },
  supply: { place: "tonight", load: () => import("./tonight/Supply.js") },
  slate: { place: "tonight", load: () => import("./tonight/Slate.js") },
  yard: { place: "tonight", load: () => import("./yard/Yard.js") },
  vehicles: { place: "vehicles", load: loadVehicles },
  sheet: { place: "vehicles", load: () => import("./sheet/Sheet.js") },
  rounds: { place: "vehicles", load: () => import("./rounds/Rounds.js") },
  round: { place: "vehicles", load: () => import("./rounds/RoundEditor.js") },
  kit: { place: "vehicles", load: () => import("./Kit.js") },
  "kit-sheet": { place: "vehicles", load: () => import("./KitSheet.js") },
  compare: { place: "vehicles", load: () => import("./Compare.js") },
  phone: { place: "vehicles", load: () => import("./Phone.js") },
  money: { place: "money", load: () => import("./money/Money.js") },
  "money-month": { place: "money", load: () => import("./money/Month.js") },
  payback: { place: "money", load: () => import("./money/Payback.js") },
  report: { place: "money", load: () => import("./money/Report.js") },
  "money-figures": { place: "money", load: () => import("./money/Figures.js") },
  "money-account": { place: "money", load: () => import("./money/Account.js") },
};

const FIRST = { driver: "today", yard: "tonight", owner: "money", fitter: "kit" } as const;

/** Where the app opens: at the four ways in until something is known, then where the role looks first. */
export function firstScreen(): string {
  if (vehicles.value.length === 0 && yards.value.length === 0) return "start";
  const wanted = FIRST[settings.value.role];
  return wanted in SCREENS ? wanted : "today";
}
