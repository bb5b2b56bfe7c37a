import type { Site } from "../../calc/sun/index.js";
import type { Yard } from "../index.js";

export const siteOf = ({ latDeg, lonDeg, altitudeM }: Yard): Site => ({ latDeg, lonDeg, altitudeM });
