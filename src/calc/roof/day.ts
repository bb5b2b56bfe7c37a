import { HOUR_MS } from "../../units/numbers.js";
import { type LightModel, lightUnder, type Site, type SunInstant, sunInstant } from "../sun/index.js";
import { panelsW, roofW } from "./power.js";
import { ROOF_MODELS, type Roof, type RoofModels, type RoofMoment } from "./roof.js";

export interface RoofDay {
  readonly site: Site;
  /** Local midnight. */
  readonly fromUtcMs: number;
  /** Instants of the sum: the first is `firstMs` after midnight, then every `stepMs`, over 24 hours. */
  readonly stepMs: number;
  readonly firstMs: number;
  readonly linke: number;
  readonly roof: Roof;
  /** Held through each hour 0..23 of the day. */
  readonly oktaIn: (hour: number) => number;
  readonly momentIn: (hour: number) => RoofMoment;
  readonly light?: LightModel;
  readonly models?: RoofModels;
}

export interface RoofDayEnergy {
  /** Behind the controller. */
  readonly wh: number;
  readonly mostW: number;
  readonly whByHour: readonly number[];
  /** At the panels, each face by itself. */
  readonly dcWhByFace: readonly number[];
  /** On open level ground, before any shade. */
  readonly ghiClearWhM2: number;
  readonly ghiWhM2: number;
  readonly dniWhM2: number;
  readonly dhiWhM2: number;
}

/** The sun of a day, instant by instant: shared by every roof of a place; null while it is down. */
export const sunOfDay = (day: Pick<RoofDay, "site" | "fromUtcMs" | "stepMs" | "firstMs" | "linke">) =>
  Array.from({ length: Math.round((24 * HOUR_MS) / day.stepMs) }, (_, i): SunInstant | null =>
    sunInstant(day.fromUtcMs + day.firstMs + i * day.stepMs, day.site, day.linke),
  );

/** Energy that a roof brings in 24 hours from local midnight. [Wh] With 15-minute steps (firstMs half a step) within 0.1 % of 1-minute ones. */
export function roofDay(day: RoofDay, suns: readonly (SunInstant | null)[] = sunOfDay(day)): RoofDayEnergy {
  const { roof, light: lightOf = lightUnder, models = ROOF_MODELS } = day;
  const hours = day.stepMs / HOUR_MS;
  const alone = roof.faces.map((face): Roof => ({ ...roof, faces: [face], link: "trackerPerFace" }));
  const whByHour = new Array<number>(24).fill(0);
  const dcWhByFace = new Array<number>(roof.faces.length).fill(0);
  const sums = { mostW: 0, ghiClearWhM2: 0, ghiWhM2: 0, dniWhM2: 0, dhiWhM2: 0 };
  suns.forEach((sun, i) => {
    if (!sun) return;
    const hour = Math.floor((day.firstMs + i * day.stepMs) / HOUR_MS);
    const light = lightOf(sun, day.oktaIn(hour));
    const at = day.momentIn(hour);
    const w = roofW(sun, light, roof, at, models);
    whByHour[hour] = (whByHour[hour] ?? 0) + w * hours;
    alone.forEach((one, f) => {
      dcWhByFace[f] = (dcWhByFace[f] ?? 0) + panelsW(sun, light, one, at, models) * hours;
    });
    sums.mostW = Math.max(sums.mostW, w);
    sums.ghiClearWhM2 += sun.clearGhiWm2 * hours;
    sums.ghiWhM2 += light.ghiWm2 * hours;
    sums.dniWhM2 += light.dniWm2 * hours;
    sums.dhiWhM2 += light.dhiWm2 * hours;
  });
  return { wh: whByHour.reduce((a, b) => a + b, 0), whByHour, dcWhByFace, ...sums };
}
