import type { AnyRecord, KindName } from "./kinds.js";

type Lists = {
  readonly yards: "yard";
  readonly sockets: "socket";
  readonly vehicles: "vehicle";
  readonly rounds: "round";
  readonly shifts: "shift";
  readonly skies: "sky";
  readonly readings: "reading";
  readonly entries: "entry";
};

/** Everything a fleet file holds; `invented` marks examples that no real fleet drove. */
export type Fleet = {
  readonly format: "noonplug-fleet";
  readonly version: 1;
  readonly title: string;
  readonly invented: boolean;
} & { readonly [L in keyof Lists]: readonly AnyRecord<Lists[L] & KindName>[] };
