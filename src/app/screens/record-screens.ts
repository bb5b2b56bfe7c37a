import { vehicles } from "../fleet.js";
import type { ScreenEntry } from "../places.js";
import { editWords } from "../words/edit.js";
import { fleetWords } from "../words/fleet.js";
import { roundsWords } from "../words/rounds.js";
import { sheetWords } from "../words/sheet.js";
import { skyWords } from "../words/sky.js";
import { yardWords } from "../words/yard.js";

/** The place Vehicles: the sheet of the only one, or the list. */
export async function loadVehicles(): ReturnType<ScreenEntry["load"]> {
  if (vehicles.value.length !== 1) return import("./Vehicles.js");
  const [{ OneVehicle }] = await Promise.all([import("./sheet/Sheet.js"), editWords.load(), sheetWords.load()]);
  return { Screen: OneVehicle };
}

/** Screens where records are typed in. */
export const RECORD_SCREENS: Readonly<Record<string, ScreenEntry>> = {
  sheet: {
    place: "vehicles",
    load: () => import("./sheet/Sheet.js"),
    words: [editWords, sheetWords, fleetWords],
  },
  sky: { place: "today", load: () => import("./sky/Sky.js"), words: [editWords, skyWords] },
  yard: { place: "tonight", load: () => import("./yard/Yard.js"), words: [editWords, yardWords] },
  rounds: { place: "vehicles", load: () => import("./rounds/Rounds.js"), words: [editWords, roundsWords] },
  round: { place: "vehicles", load: () => import("./rounds/RoundEditor.js"), words: [editWords, roundsWords] },
};
