import { civilDate, plusDays } from "../units/zone.js";
import { settings } from "./settings.js";

export const DATABASE = "noonplug";
export const DEMO_DATABASE = "noonplug-demo";
export const databaseName = (): string => (settings.value.demo ? DEMO_DATABASE : DATABASE);

/** Kinds of which there are few; read whole. */
export const FEW = ["yard", "socket", "vehicle", "round"] as const;
/** One of each vehicle and yard; read whole too. */
export const LEARNED = ["learned", "placeLearned"] as const;
export const WHOLE = [...FEW, ...LEARNED] as const;
/** Kinds of which the answers need the near days. */
export const BY_DAY = ["shift", "sky", "reading", "night"] as const;
const DAYS_BACK = 14;
const DAYS_ON = 7;
export function nearDays(): readonly [string, string] {
  const today = civilDate(Date.now(), "UTC");
  return [plusDays(today, -DAYS_BACK), plusDays(today, DAYS_ON)];
}
