import { figures, n, sn } from "../format.js";
import type { ListWords } from "./en.js";

export const sw: ListWords = {
  tomorrow: (count) => `Magari ${figures(count)}`,
  tally: { short: "pungufu", tight: "inabana", notKnown: "haijulikani", enough: "inatosha", off: "nje ya barabara" },
  shortKm: (km) => `Pungufu km ${n(km)}`,
  tight: (up, down) => `km ${sn(up)} au ${sn(-down)}`,
  enoughKm: (km) => `km ${sn(km)}`,
  readGauge: "soma kipimo",
  giveRound: "lipe mzunguko",
  working: "inapigwa hesabu",
  find: "Tafuta namba",
  noneFound: "Hakuna gari lenye namba hii.",
  slate: "Andika ubao",
  log: "Kadirio na ukweli",
  newVehicle: "Gari jipya",
  rounds: "Mizunguko",
  phone: "Simu hii",
  empty: "Bado hakuna gari. Gusa mara tano.",
  five: "Gusa mara tano",
  spoken: (short, tight, unknown, enough) =>
    `${figures(short)} pungufu, ${figures(tight)} yanabana, ${figures(unknown)} hayajulikani, ${figures(enough)} yanatosha.`,
};
