import { effect, signal } from "@preact/signals";
import { path } from "../../router.js";

/** Screens that lie under the place Money. */
export const MONEY_SCREENS = ["money", "money-month", "payback", "report", "money-figures", "money-account"] as const;

/** Money shows after its owner's tap only, as long as nobody leaves its screens; it is never kept open from one visit to the next. */
export const uncovered = signal(false);

/** Filling the missing days of a month is a wish for as long as the money is looked at; no other screen fills. */
export const filling = signal(false);

effect(() => {
  const [name = ""] = path.value.split("/");
  if ((MONEY_SCREENS as readonly string[]).includes(name)) return;
  uncovered.value = false;
  filling.value = false;
});

/** Left lying about, it covers itself. */
const MINUTES_OPEN = 5;
let timer: ReturnType<typeof setTimeout> | undefined;
effect(() => {
  clearTimeout(timer);
  if (uncovered.value) timer = setTimeout(() => (uncovered.value = false), MINUTES_OPEN * 60_000);
});
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "hidden") uncovered.value = false;
});
