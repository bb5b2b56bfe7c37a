import * as sun from "../../../src/calc/sun/index.js";
import type { Served } from "./index.js";

export const served = {
  standardPressure: ({ altitudeM }: { altitudeM: number }) => ({
    pressurePa: sun.standardPressurePa(altitudeM),
    pressureRatio: sun.pressureRatio(altitudeM),
  }),
  relativeAirMass: (of: { zenithApparentDeg: number }) => ({
    relativeAirMass: sun.relativeAirMass(of.zenithApparentDeg),
  }),
  absoluteAirMass: (of: { zenithApparentDeg: number; altitudeM: number }) => ({
    absoluteAirMass: sun.absoluteAirMass(of.zenithApparentDeg, of.altitudeM),
  }),
  extraterrestrial: ({ dayOfYear }: { dayOfYear: number }) => ({
    dniExtraWm2: sun.dniExtraWm2(dayOfYear),
    declinationDeg: sun.declinationDeg(dayOfYear),
    equationOfTimeMin: sun.equationOfTimeMin(dayOfYear),
  }),
  extraterrestrialDay: (of: { latDeg: number; dayOfYear: number }) => ({
    ...sun.extraterrestrialDay(of.latDeg, of.dayOfYear),
  }),
} satisfies Served;
