import "../parts/pads.css"; // before the sheet of any screen, which may say otherwise
import { h } from "preact";
import { vehicles } from "../fleet.js";
import type { ScreenEntry } from "../places.js";
import { handOver } from "../settings.js";

/** The place Vehicles: the sheet of the only one, or the list. */
async function loadVehicles(): ReturnType<ScreenEntry["load"]> {
  if (vehicles.value.length !== 1) return import("./Vehicles.js");
  const { OneVehicle, words } = await import("./sheet/Sheet.js");
  return { Screen: OneVehicle, words };
}

/** In other hands the night is that of the one vehicle. */
async function loadNight(): ReturnType<ScreenEntry["load"]> {
  if (!handOver.value) return import("./tonight/Screen.js");
  const { Screen, words } = await import("./tonight/VehicleScreen.js");
  return { Screen: () => h(Screen, { params: vehicles.value.map(({ id }) => id) }), words };
}

/** The screen of a name, by the table that is fetched when one of these is first asked for; those of the yard stay away in other hands. */
export function laterEntry(name: string): ScreenEntry | undefined {
  if (!Object.hasOwn(LATER, name)) return undefined;
  const entry = LATER[name];
  return handOver.value && entry?.yards ? undefined : entry;
}

/** Every screen but the first ones. */
const LATER: Readonly<Record<string, ScreenEntry>> = {
  gauge: { place: "today", needs: "vehicle", load: () => import("./Gauge.js") },
  sky: { place: "today", load: () => import("./sky/Sky.js") },
  load: { place: "today", needs: "vehicle", load: () => import("./Load.js") },
  road: { place: "today", needs: "vehicle", load: () => import("./Road.js") },
  write: { place: "today", needs: "vehicle", load: () => import("./Write.js") },
  trip: { place: "today", needs: "vehicle", load: () => import("./Trip.js") },
  rest: { place: "today", needs: "vehicle", load: () => import("./Rest.js") },
  turn: { place: "today", needs: "vehicle", load: () => import("./Turn.js") },
  moves: { place: "today", needs: "vehicle", load: () => import("./Moves.js") },
  "hold-up": { place: "today", needs: "vehicle", load: () => import("./HoldUp.js") },
  tonight: { place: "tonight", load: loadNight },
  "night-vehicle": { place: "tonight", needs: "named", load: () => import("./tonight/VehicleScreen.js") },
  supply: { place: "tonight", needs: "vehicle", yards: true, load: () => import("./tonight/Supply.js") },
  slate: { place: "tonight", needs: "vehicle", yards: true, load: () => import("./tonight/Slate.js") },
  yard: { place: "tonight", yards: true, load: () => import("./yard/Yard.js") },
  vehicles: { place: "vehicles", load: loadVehicles },
  sheet: { place: "vehicles", load: () => import("./sheet/Sheet.js") },
  log: { place: "vehicles", load: () => import("./log/Log.js") },
  paper: { place: "vehicles", yards: true, load: () => import("./log/Paper.js") },
  care: { place: "vehicles", needs: "named", load: () => import("./care/Care.js") },
  rounds: { place: "vehicles", load: () => import("./rounds/Rounds.js") },
  round: { place: "vehicles", needs: "yard", load: () => import("./rounds/RoundEditor.js") },
  kit: { place: "vehicles", load: () => import("./Kit.js") },
  "kit-sheet": { place: "vehicles", load: () => import("./KitSheet.js") },
  compare: { place: "vehicles", load: () => import("./Compare.js") },
  phone: { place: "vehicles", load: () => import("./Phone.js") },
  money: { place: "money", load: () => import("./money/Money.js") },
  "money-month": { place: "money", load: () => import("./money/Month.js") },
  payback: { place: "money", needs: "vehicle", load: () => import("./money/Payback.js") },
  report: { place: "money", load: () => import("./money/Report.js") },
  "money-figures": { place: "money", needs: "vehicle", load: () => import("./money/Figures.js") },
  "money-account": { place: "money", needs: "vehicle", load: () => import("./money/Account.js") },
};
