import type { Round } from "../../records/index.js";

export const kmOf = (round: Round): number =>
  round.parts.reduce((total, part) => total + (part.kind === "leg" ? part.km : 0), 0);
