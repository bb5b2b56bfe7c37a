import { ROOF_GUESS, type Roof, type RoofFace, soilingShare } from "../../calc/roof/index.js";
import type { Vehicle } from "../index.js";

/** Half the days between two wipes have passed on a usual day. */
const USUAL_SHARE_OF_WIPING = 0.5;

/** The roof as the calculation takes it, null without panels. Side faces stand still on the vehicle: 90 degrees is the right-hand side. */
export function roofOf(vehicle: Vehicle): Roof | null {
  const { roof, battery } = vehicle;
  if (roof.faces.length === 0) return null;
  const string = roof.faces.find((face) => face.maxPowerV !== undefined && face.panelsInSeries !== undefined);
  return {
    faces: roof.faces.map(
      ({ ratedW, tiltDeg, sideDeg, gammaPerC }): RoofFace => ({ ratedW, tiltDeg, sideDeg, gammaPerC }),
    ),
    link: roof.link,
    controllerEfficiency: roof.controllerEfficiency,
    soilingShare: soilingShare(roof.wipedEveryDays * USUAL_SHARE_OF_WIPING),
    wireShare: roof.wireShare,
    mismatchShare: ROOF_GUESS.mismatchShare,
    mount: ROOF_GUESS.mount,
    batteryNominalV: battery.nominalV,
    ...(string ? { panelVmpV: (string.maxPowerV ?? 0) * (string.panelsInSeries ?? 0) } : {}),
  };
}
