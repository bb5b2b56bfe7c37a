import { figures, n, sn } from "../format.js";
import type { ListWords } from "./en.js";

export const bn: ListWords = {
  tomorrow: (count) => `${figures(count)}টি গাড়ি`,
  tally: { short: "কম", tight: "টানাটানি", notKnown: "জানা নেই", enough: "যথেষ্ট", off: "রাস্তায় নেই" },
  shortKm: (km) => `${n(km)} কিমি কম`,
  tight: (up, down) => `${sn(up)} বা ${sn(-down)} কিমি`,
  enoughKm: (km) => `${sn(km)} কিমি`,
  readGauge: "মিটার দেখুন",
  giveRound: "ফেরা দিন",
  working: "হিসাব চলছে",
  find: "নম্বর খুঁজুন",
  noneFound: "এই নম্বরের গাড়ি নেই।",
  slate: "স্লেট লিখুন",
  log: "আন্দাজ আর আসল",
  newVehicle: "নতুন গাড়ি",
  rounds: "ফেরা",
  phone: "এই ফোন",
  empty: "এখনও কোনো গাড়ি নেই। পাঁচবার ছুঁয়ে দিন।",
  five: "পাঁচবার ছুঁয়ে দিন",
  spoken: (short, tight, unknown, enough) =>
    `${figures(short)}টির কম, ${figures(tight)}টির টানাটানি, ${figures(unknown)}টির জানা নেই, ${figures(enough)}টির যথেষ্ট।`,
};
