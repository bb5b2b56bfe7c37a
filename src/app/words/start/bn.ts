import { figures } from "../format.js";
import type { StartWords } from "./en.js";

export const bn: StartWords = {
  promise: ["অ্যাকাউন্ট লাগে না।", "নেটওয়ার্ক ছাড়াই চলে।"],
  ways: {
    vehicle: { title: "আমার গাড়ি", sub: "৫ বার ছুঁলেই উত্তর" },
    yard: { title: "গ্যারেজ বা স্ট্যান্ড", sub: "সকেট, পাহারা, কার কম" },
    kits: { title: "আমি কিট লাগাই", sub: "গ্রাহকের ছাদ আর সেট" },
    look: { title: "আগে ঘুরে দেখি", sub: "১২ গাড়ির বানানো গ্যারেজ" },
  },
  staysHere: "আপনি না দিলে সব এই ফোনেই থাকে।",
  voice: "কণ্ঠ",
  languages: "ভাষা",
  moreLanguages: "আরও ভাষা",
  spoken: "নুনপ্লাগ। কালকের জন্য যথেষ্ট? চারটির একটি পথ বাছুন।",

  fiveTaps: "পাঁচবার ছোঁয়া",
  tapsToGo: (left) => `আর ${figures(left)} বার`,
  seeTomorrow: "দিনটা দেখুন",
  looksLike: "দেখতে কেমন",
  looks: { passenger: "ট্যাক্সি", goodsLarge: "ভ্যান", eRickshaw: "রিকশা", vendingCart: "দোকান" },
  fullCharge: "এক পুরো চার্জে চলে",
  usualDay: "রোজ চলে",
  km: "কিমি",
  panels: "ছাদে প্যানেল",
  none: "নেই",
  dashShows: "ড্যাশে দেখায়",
  dash: { volts: "ভোল্ট", bars: "ঘর", percent: "%", nothing: "কিছু না" },
  spokenTaps: "পাঁচবার ছোঁয়া: দেখতে কেমন, এক চার্জে কত কিমি, রোজ কত কিমি, প্যানেল, আর ড্যাশে কী দেখায়।",
  vehicleName: "আমার গাড়ি",
  yardName: "বাড়ি",
  usualRound: "রোজকার দিন",
  halfOut: "যাওয়া",
  midday: "দুপুরের থামা",
  halfBack: "ফেরা",
  stallStop: "দোকান",
};
