import type { LegNote } from "../../calc/day/answer.js";
import type { CivilDate } from "../../units/zone.js";
import type { StripModel } from "../parts/strip-model.js";

export type GaugeKind = "percent" | "bars" | "volts";
export type SkyClass = "bright" | "mixed" | "dark" | "usual";
export type LoadClass = "empty" | "half" | "full";
export type RoadClass = "flat" | "some" | "hills";

/** What the app says about the day. km are rounded the careful way: what is left down, what is missing up. */
export type Said =
  | {
      readonly verdict: "enough";
      readonly km: number;
      readonly badKm: number;
      /** A vendor's day is told in hours of stall. */
      readonly stall: { readonly hours: number; readonly minutes: number } | null;
    }
  | { readonly verdict: "tight"; readonly upKm: number; readonly downKm: number }
  | { readonly verdict: "short"; readonly km: number; readonly badKm: number; readonly fromH: number | null }
  | { readonly verdict: "notKnown"; readonly why: "gauge" | "round" | "band"; readonly since: CivilDate | null };

/** A way out of a short or tight day; with it the day is enough, nine days in ten. */
export type Way =
  | { readonly kind: "plug"; readonly fromH: number; readonly toH: number; readonly gainKm: number }
  | { readonly kind: "leaveOut"; readonly km: number };
export type NoPlug = "fullNotEnough" | "noTime";

export interface TodayModel {
  readonly vehicleId: string;
  readonly plate: string;
  readonly name: string;
  /** Day that is spoken of. */
  readonly date: CivilDate;
  readonly nowH: number;
  readonly said: Said;
  /** Nothing has been learned yet: every figure is a guess. */
  readonly guess: boolean;
  /** No round was given: the day is the vehicle's usual one. */
  readonly usualDay: boolean;
  readonly gaugeKind: GaugeKind;
  /** Last reading, in the gauge's own unit. */
  readonly reading: {
    readonly kind: GaugeKind | "full";
    readonly value: number;
    readonly hour: number | null;
    readonly guess: boolean;
  } | null;
  /** Likely level at the start, 0..1, for a start that nobody typed. */
  readonly startShare: number | null;
  readonly sky: SkyClass;
  readonly load: LoadClass;
  readonly road: RoadClass;
  readonly strip: StripModel | null;
  /** km that the sun brings. */
  readonly sunKm: number;
  /** km that a full-height sun column stands for. */
  readonly sunKmPerShare: number;
  readonly reserveShare: number;
  readonly bars: number | null;
  readonly saysLittle: boolean;
  readonly lowestH: number | null;
  /** On the way between leaving and coming home. */
  readonly out: boolean;
  /** The set would take no charge in the cold it will have. */
  readonly tooCold: boolean;
  /** A hill that does not go as the round says. */
  readonly hill: {
    readonly problem: LegNote["problem"];
    readonly name: string;
    readonly kmh: number;
  } | null;
  /** Places on the way whose sockets are counted on. */
  readonly sockets: readonly string[];
  readonly ways: readonly Way[];
  /** Why no plug before leaving makes a tight or short day enough; null when one does, and for a set that is too cold. */
  readonly noPlug: NoPlug | null;
}
