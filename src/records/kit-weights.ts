import type { Chemistry } from "./vehicle.js";

/** Weight of framed panels with their frame, and of sets with box and cables. [kg/W, kg/Wh] Common practice, no source. */
export const PANEL_KG_PER_W = 0.06;
export const SET_KG_PER_WH: Readonly<Record<Chemistry, number>> = { lfp: 0.01, floodedLead: 0.032, sealedLead: 0.033 };
