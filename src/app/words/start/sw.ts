import { figures } from "../format.js";
import type { StartWords } from "./en.js";

export const sw: StartWords = {
  promise: ["Hakuna akaunti. Hufanya", "kazi bila mtandao."],
  ways: {
    vehicle: { title: "Gari langu", sub: "gusa mara 5, kisha jibu" },
    yard: { title: "Yadi au kituo", sub: "soketi, mlinzi, nani pungufu" },
    kits: { title: "Nafunga vifaa", sub: "paa na seti kwa mteja" },
    look: { title: "Angalia kwanza", sub: "yadi ya magari 12 isiyo halisi" },
  },
  staysHere: "Yote hubaki kwenye simu hii hadi ushiriki.",
  voice: "Sauti",
  languages: "Lugha",
  moreLanguages: "Lugha zaidi",
  spoken: "Noonplug. Inatosha kwa kesho? Chagua njia moja kati ya nne.",

  fiveTaps: "gusa mara tano",
  tapsToGo: (left) => `bado mara ${figures(left)}`,
  seeTomorrow: "Ona siku",
  looksLike: "Linafanana na",
  looks: { passenger: "teksi", goodsLarge: "pikipiki ya mizigo", eRickshaw: "riksho", vendingCart: "kibanda" },
  fullCharge: "Chaji moja hulipeleka",
  usualDay: "Siku ya kawaida ni",
  km: "km",
  panels: "Paneli kwenye paa",
  none: "hakuna",
  dashShows: "Dashibodi huonyesha",
  dash: { volts: "volti", bars: "vipande", percent: "%", nothing: "hakuna" },
  spokenTaps: "Gusa mara tano: linafanana na nini, km kwa chaji moja, km za siku, paneli, na dashibodi huonyesha nini.",
  vehicleName: "Gari langu",
  yardName: "Nyumbani",
  usualRound: "Siku ya kawaida",
  halfOut: "Kwenda",
  midday: "Mapumziko ya mchana",
  halfBack: "Kurudi",
  stallStop: "Kibanda",
};
