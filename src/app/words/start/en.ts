import { figures, plural } from "../format.js";

/** First run and the five taps. */
export const en = {
  promise: ["No account. Works with", "no network."],
  ways: {
    vehicle: { title: "My vehicle", sub: "5 taps, then the answer" },
    yard: { title: "A yard or a stand", sub: "sockets, watch, who is short" },
    kits: { title: "I fit kits", sub: "roof and set for a customer" },
    look: { title: "Look around first", sub: "a yard of 12 that is not real" },
  },
  staysHere: "All of it stays on this phone until you share.",
  voice: "Voice",
  languages: "Language",
  moreLanguages: "More languages",
  spoken: "Noonplug. Enough for tomorrow? Choose one of four ways in.",

  fiveTaps: "five taps",
  tapsToGo: (left: number) => `${figures(left)} ${plural(left, { one: "tap", other: "taps" })} to go`,
  seeTomorrow: "See the day",
  looksLike: "Looks most like",
  looks: { passenger: "taxi", goodsLarge: "van", eRickshaw: "rickshaw", vendingCart: "stall" },
  fullCharge: "One full charge takes it",
  usualDay: "A usual day is",
  km: "km",
  panels: "Panels on the roof",
  none: "none",
  dashShows: "The dash shows",
  dash: { volts: "volts", bars: "bars", percent: "%", nothing: "nothing" },
  spokenTaps: "Five taps: what it looks like, km on one charge, km on a usual day, panels, and what the dash shows.",
  vehicleName: "My vehicle",
  yardName: "Home",
  usualRound: "Usual day",
  halfOut: "Way out",
  midday: "Midday stop",
  halfBack: "Way back",
  stallStop: "Stall",
};
export type StartWords = typeof en;
