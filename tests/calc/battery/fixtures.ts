import type { Battery } from "../../../src/calc/battery/index.js";

export const LFP: Battery = {
  chemistry: "lfp",
  nominalV: 51.2,
  ratedAh: 54,
  health: 1,
  seriesCount: 16,
  resistanceOhm: 0.035,
  peukertExponent: 1.03,
  ratedHours: 5,
};
export const FLOODED: Battery = {
  chemistry: "floodedLead",
  nominalV: 48,
  ratedAh: 54,
  health: 1,
  seriesCount: 24,
  resistanceOhm: 0.05,
  peukertExponent: 1.25,
  ratedHours: 5,
};
export const SEALED: Battery = { ...FLOODED, chemistry: "sealedLead", peukertExponent: 1.15 };
export const ALL = [LFP, FLOODED, SEALED] as const;
