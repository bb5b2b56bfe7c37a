import { at, clock, figures, n, plural, sn, weekday } from "./format.js";

/** The core words: shell and Today. Every language file has the same shape, so a missing word does not compile. */
export const en = {
  app: "Noonplug",
  question: "Enough for tomorrow?",
  places: { today: "Today", tonight: "Tonight", vehicles: "Vehicles", myVehicle: "My vehicle", money: "Money" },
  keys: {
    back: "Back",
    say: "Say it",
    help: "Help",
    undo: "Undo",
    close: "Close",
    write: "Write",
    oneMoreTrip: "One more trip?",
  },
  states: {
    enough: "Enough",
    tight: "Tight",
    short: "Short",
    notKnown: "Not known",
    done: "Done",
    off: "Off the road",
  },
  ribbon: (rise: number, set: number, now: number) =>
    `Daylight from ${clock(rise)} to ${clock(set)}. Now ${clock(now)}.`,
  ribbonNow: (now: number) => `Now ${clock(now)}.`,
  vehicleNumber: (plate: string) => `Vehicle ${plate}`,
  otherVehicle: (plate: string) => `Vehicle ${plate}. Another vehicle?`,

  // Verdicts. km below zero never reach these: the screen picks the sentence.
  kmLeftHome: (km: number) => `${n(km)} km left at home`,
  stallLeft: (hours: number, minutes: number) => `${n(hours)} h ${n(minutes)} of stall left`,
  flagStall: (hours: number, minutes: number) => `${figures(hours)} h ${figures(minutes)}`,
  badDay: (km: number) => `on a bad day ${n(km)}`,
  orKm: (up: number, down: number) => `${sn(up)} or ${sn(-down)} km`,
  shortBy: (km: number, hour: number | null) => (hour === null ? `by ${n(km)} km` : `by ${n(km)} km, from ${at(hour)}`),
  nobodyReadSince: (date: string) => `Nobody read the gauge since ${weekday(date)}.`,
  nobodyRead: "Nobody has read the gauge yet.",
  bandTooWide: "Too much is not known for an answer.",
  noRound: "No round for this day.",
  aHill: "A hill",
  coldSet: "Too cold to charge this set. Read the maker's limit.",
  noSuchRoad: (name: string) => `${name}: no road climbs like that, check its km.`,
  tooSteep: (name: string) => `${name}: too steep with this load.`,
  slowHill: (name: string, kmh: number) => `${name}: no more than ${figures(kmh)} km/h.`,
  hotHill: (name: string) => `${name}: the motor gets hot, it needs a rest.`,
  working: "Working it out",
  aGuess: "a guess, no log yet",
  usualDay: "a usual day",
  countsOn: (places: string) => `counts on the socket at ${places}`,
  forTomorrow: (day: string) => `tomorrow, ${day}`,
  noVehicle: "No vehicle yet.",
  gone: "This is not here any more.",
  fiveTaps: "Five taps",

  // The strip
  sun: "sun",
  sunKm: (km: number) => `+${figures(km)} km`,
  line: (percent: number) => `the line, ${figures(percent)} %`,
  lineBars: (bars: number) => `the line, ${figures(bars)} ${plural(bars, { one: "bar", other: "bars" })}`,
  volts: (volts: number) => `${figures(volts, 1)} V`,
  percent: (percent: number) => `${figures(percent)} %`,
  bars: (bars: number) => `${figures(bars)} ${plural(bars, { one: "bar", other: "bars" })}`,
  typedAt: (hour: number | null) => (hour === null ? "you typed" : `you typed, ${at(hour)}`),
  full: "full",
  guessed: "a guess",
  flagKm: (km: number) => `${figures(km)} km`,
  flagUnder: (km: number) => `${figures(km)} km under`,
  flagOr: (km: number) => `+${figures(km)} km`,
  lowestAt: (hour: number) => `lowest ${at(hour)}`,
  voltsSayLittle: "volts say little for this set",

  // What the answer stands on
  standsOn: "Stands on",
  units: { volts: "volts", percent: "%", bars: "bars" },
  gauge: "gauge",
  sky: { bright: "bright sky", mixed: "mixed sky", dark: "dark sky", usual: "usual sky" },
  load: { empty: "no load", half: "half load", full: "full load" },
  road: { flat: "flat road", some: "some hills", hills: "hills" },

  // Not known
  typeGauge: { volts: "Type the volts", percent: "Type the %", bars: "Type the bars" },
  afterRest: "after a rest of some minutes",
  pluggedAllNight: "It was plugged all night",
  callItFull: "then call it nearly full",
  chooseRound: "Choose a round",

  // Ways out
  plugFromTo: (from: number, to: number) => `Plug ${at(from)} to ${at(to)}`,
  thenEnough: "then it is enough",
  leaveOut: (km: number) => `Leave out ${figures(km)} km`,
  leaveOutWhich: "of the last stops, for a bad day too",
  noPlug: {
    fullNotEnough: "Even a full set is not enough.",
    noTime: "No time is left to charge enough.",
  },
  gain: (km: number) => `${sn(km)} km`,

  caution: "Caution",

  // The number pad
  pad: {
    keep: "Keep",
    rub: "Rub out",
    close: "Close",
    point: "Point",
    minus: "Minus",
    between: (least: string, most: string) => `from ${least} to ${most}`,
    another: "Another number",
  },

  // Foot of the page
  kept: "Kept.",
  newVersion: "A new version is here. It starts when you say.",
  notAllKept: "This phone has no room to keep the app for use without network.",
  startIt: "Start it",
  otherTabNew: "A new version started in another window.",
  notKept: "Not kept yet: this phone has no room.",
  notKeptWhy: "The phone did not take it. What you typed stays on the screen.",
  storageGone: "This browser keeps nothing for this page. A private window may be the reason.",
  closeOthers: "Another window of Noonplug is in the way. Close it, then open this one again.",
  broke: "This page stopped. What you wrote is kept.",
  goOn: "Go on",
  shareWhatHappened: "Share what happened",
  missingPart: "A part of the app has not come over the network yet. Open it once with network.",
  demo: "Not a real yard. All of it is made up.",
  endDemo: "End it",
};
export type Words = typeof en;
