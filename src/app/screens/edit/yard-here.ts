import type { Yard } from "../../../records/index.js";
import { current } from "../../answers.js";
import { yards } from "../../fleet.js";

/** The yard that is spoken of: that of the current vehicle, else the first. */
export const yardHere = (): Yard | undefined =>
  yards.value.find((yard) => yard.id === current.value?.yardId) ?? yards.value[0];
