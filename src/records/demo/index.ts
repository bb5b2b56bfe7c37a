import type { CivilDate } from "../../units/zone.js";
import type { Fleet } from "../fleet.js";
import { cartFleet } from "./cart.js";
import { quayFleet } from "./quay.js";
import { standFleet } from "./stand.js";

/** The three invented fleets, each made for the day it is looked at, so that its evening is this evening; with `nowUtcMs` no gauge was read later. */
export const demoFleets: Readonly<Record<"quay" | "stand" | "cart", (today: CivilDate, nowUtcMs?: number) => Fleet>> = {
  quay: quayFleet,
  stand: standFleet,
  cart: cartFleet,
};
export { QUAY_ZONE } from "./quay.js";
export type DemoName = keyof typeof demoFleets;
