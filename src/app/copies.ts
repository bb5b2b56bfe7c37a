import { writeBackup } from "../store/backup.js";
import { civilDate } from "../units/zone.js";
import { saveFile } from "./files.js";
import { settings } from "./settings.js";
import { openedStore } from "./shelf.js";
import { nowUtcMs, zone } from "./state.js";

const KEY = "noonplug-copied";
const WEEK_MS = 7 * 86_400_000;

/** Everything on this phone in one file, and the day it was saved. */
export async function saveCopy(): Promise<boolean> {
  const text = await writeBackup(await openedStore(), Date.now());
  if (!text.ok) return false;
  const name = `noonplug-copy-${civilDate(Date.now(), zone.value)}.json`;
  const taken = await saveFile(name, text.value, "application/json");
  if (taken) remember(Date.now());
  return taken;
}

function remember(atUtcMs: number): void {
  try {
    localStorage.setItem(KEY, String(atUtcMs));
  } catch {
    // no room or no right: it will be offered again
  }
}

function lastCopyUtcMs(): number | null {
  try {
    const at = Number(localStorage.getItem(KEY));
    return at > 0 ? at : null;
  } catch {
    return null;
  }
}

/** A week has gone by without a copy; counted from the first look on, so that nobody is asked on the first day. */
export function copyIsDue(): boolean {
  if (settings.value.demo) return false;
  const last = lastCopyUtcMs();
  if (last === null) remember(Date.now());
  return last !== null && nowUtcMs.value - last > WEEK_MS;
}
