import { civilDate } from "../units/zone.js";
import { answers } from "./answers.js";
import { goInstead } from "./router.js";
import { set, settings } from "./settings.js";
import { openRecords } from "./shelf.js";
import { closeStore, openedStore } from "./shelf-full.js";
import { DEMO_DATABASE } from "./shelf-lists.js";
import { nowUtcMs } from "./state.js";
import { tellDone } from "./undo.js";
import { core } from "./words/core.js";

/** Opens the yard that is not real: made for today, in a database of its own. */
export async function startDemo(): Promise<void> {
  const [{ demoFleets }, { importFleet }] = await Promise.all([
    import("../records/demo/index.js"),
    import("../store/transfer.js"),
  ]);
  const { vehicleId, role } = settings.value;
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  set({ demo: { vehicleId, role }, vehicleId: null, role: "yard" });
  const fleet = demoFleets.quay(civilDate(nowUtcMs.value, zone), nowUtcMs.value);
  const made = await importFleet(openedStore(), fleet, "replace");
  if (!made.ok) return endDemo();
  answers.value = new Map();
  await openRecords();
  goInstead("vehicles");
  void import("./learning.js").then(
    ({ learnFromLog }) => learnFromLog(),
    () => undefined,
  );
}

/** Ends it and removes it whole; the person's own records were never touched. */
export async function endDemo(): Promise<void> {
  closeStore();
  const { demo } = settings.value;
  set({ demo: null, ...(demo ?? {}) });
  await new Promise<void>((done) => {
    const gone = indexedDB.deleteDatabase(DEMO_DATABASE);
    gone.onsuccess = gone.onerror = gone.onblocked = () => done();
  });
  answers.value = new Map();
  await openRecords();
  goInstead("");
  tellDone({ says: core.now().demoEnded, undo: null });
}
