import { figures, n, plural, sn } from "../format.js";

/** The list of vehicles. */
export const en = {
  tomorrow: (count: number) => `${figures(count)} ${plural(count, { one: "vehicle", other: "vehicles" })}`,
  tally: { short: "short", tight: "tight", notKnown: "not known", enough: "enough", off: "off the road" },
  shortKm: (km: number) => `Short ${n(km)} km`,
  tight: (up: number, down: number) => `${sn(up)} or ${sn(-down)} km`,
  enoughKm: (km: number) => `${sn(km)} km`,
  readGauge: "read its gauge",
  giveRound: "give it a round",
  working: "working it out",
  find: "Find a number",
  noneFound: "No vehicle has this number.",
  slate: "Write the slate",
  log: "Guess and lived",
  newVehicle: "New vehicle",
  rounds: "Rounds",
  phone: "This phone",
  empty: "No vehicle yet. Five taps.",
  five: "Five taps",
  spoken: (short: number, tight: number, unknown: number, enough: number) =>
    `${figures(short)} short, ${figures(tight)} tight, ${figures(unknown)} not known, ${figures(enough)} enough.`,
};
export type ListWords = typeof en;
