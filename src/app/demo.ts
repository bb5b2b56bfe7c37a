import { openStore } from "../store/index.js";
import { civilDate } from "../units/zone.js";
import { answers } from "./answers.js";
import { keep, trouble } from "./fleet.js";
import { goInstead } from "./router.js";
import { set, settings } from "./settings.js";
import { openRecords } from "./shelf.js";
import { closeStore } from "./shelf-full.js";
import { DEMO_DATABASE } from "./shelf-lists.js";
import { nowUtcMs } from "./state.js";
import { tellDone } from "./undo.js";
import { phoneWords } from "./words/phone.js";

/** Opens the yard that is not real: made for today, in a database of its own, and only once it is whole. */
export async function startDemo(): Promise<void> {
  const [{ demoFleets, QUAY_ZONE }, { importFleet }] = await Promise.all([
    import("../records/demo/index.js"),
    import("../store/transfer.js"),
  ]);
  const fleet = demoFleets.quay(civilDate(nowUtcMs.value, QUAY_ZONE), nowUtcMs.value);
  const store = openStore({ name: DEMO_DATABASE });
  const made = await importFleet(store, fleet, "replace");
  store.close();
  await allKept();
  const { vehicleId, role, demo } = settings.value;
  if (!made.ok) trouble.value = made.problems[0] ?? null;
  if (!made.ok || demo) return;
  set({ demo: { vehicleId, role }, vehicleId: null, role: "yard" });
  answers.value = new Map();
  await openRecords();
  goInstead("vehicles");
  void import("./learning.js").then(
    ({ learnFromLog }) => learnFromLog(),
    () => undefined,
  );
}

/** What was typed goes where it was typed: no database takes the place of another before it is there. */
const allKept = (): Promise<boolean> => keep([]);

/** Ends it and removes it whole; the person's own records were never touched. */
export async function endDemo(): Promise<void> {
  await allKept();
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
  await phoneWords.load();
  tellDone({ says: phoneWords.now().demoEnded, undo: null });
}
