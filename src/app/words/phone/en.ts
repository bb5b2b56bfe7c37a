import { figures, plural } from "../format.js";

/** This phone: how it shows things, and what it keeps. */
export const en = {
  title: "This phone",
  language: "Language",
  digits: "Digits",
  voice: "Voice",
  on: "on",
  off: "off",
  look: "Look",
  looks: { day: "day", night: "night", sun: "by the sun" },
  textSize: "Text",
  sizes: ["as it is", "larger", "large", "twice"],
  opens: "Opens first",
  roles: { driver: "Today", yard: "Tonight", owner: "Money", fitter: "Kit" },
  line: "The line",
  lineHint: "Charge kept back by all vehicles.",
  lineKept: "The line is kept.",
  languageMissing: "This language has not come over the network yet.",

  copy: "A copy of everything",
  copyHint: "One file. Keep it off this phone.",
  fleetFile: "A fleet file",
  fleetFileHint: "Vehicles, rounds and log, for another program",
  leftOut: (count: number) =>
    `${figures(count)} ${plural(count, { one: "entry", other: "entries" })} could not go along; a copy of everything has them.`,
  bring: "Bring a file in",
  bringHint: "a copy, or a fleet file",
  fromCopy: (added: number, changed: number) =>
    `A copy: ${figures(added)} new, ${figures(changed)} changed. What is newer here stays.`,
  goneSince: (count: number) =>
    `${figures(count)} ${plural(count, { one: "thing of it was", other: "things of it were" })} removed here since.`,
  bringBack: "Add it, and bring back what was removed",
  fromFleet: (title: string, added: number, changed: number, only: number) =>
    `${title}: ${figures(added)} new, ${figures(changed)} changed, ${figures(only)} only here.`,
  addTo: "Add it to what is here",
  replace: "Replace all that is here",
  keepOld: "Leave all as it is",
  broughtIn: "Brought in.",
  broken: (count: number) =>
    `Nothing was taken. ${figures(count)} ${plural(count, { one: "place is", other: "places are" })} not understood:`,
  tooLarge: "This file is too large to be one of ours.",

  storage: "Room on this phone",
  used: (megabytes: number, percent: number) =>
    `${figures(megabytes, 1)} MB used, ${figures(percent)} % of what the phone gives.`,
  nearlyFull: "This phone is nearly full. Save a copy.",
  staysKept: "The phone keeps it until you remove it.",
  mayGo: "The phone may clear it when it runs full. Save a copy.",
  askKeep: "Ask the phone to keep it",
  setAside: (count: number) =>
    `${figures(count)} ${plural(count, { one: "entry", other: "entries" })} cannot be read. They are kept aside.`,
  saveAside: "Save them as a file",

  demo: "Look around first",
  demoHint: "a yard that is not real",
  demoEnded: "The yard that was not real is removed.",
  removeAll: "Remove everything",
  removeAsk: (digits: string) => `Type ${digits} to remove every vehicle, round and log from this phone.`,
  about: "It works out charge, sun and road on this phone. Nothing is sent.",
  licences: "Figures: Overpass, SIL Open Font License 1.1.",
  version: (version: string) => `Version ${version}`,
  spoken: "This phone: language, look, text, copies.",

  problems: {
    codes: {
      missing: "is missing",
      wrongType: "is not the right kind",
      tooShort: "is too short",
      tooLong: "is too long",
      badForm: "has the wrong form",
      unknownField: "is not known here",
      unknownKind: "is not known here",
      wrongKind: "is of no known kind",
      newerVersion: "comes from a newer version",
      unknownVersion: "comes from an unknown version",
      notAFleet: "This is not a fleet file.",
      notABackup: "This is not a copy.",
      notJson: "This file is not ours, or it is cut off.",
      brokenRow: "is damaged",
      doubleId: "stands there twice",
      doublePlate: "has a number that another vehicle has",
      overLegalLoad: "is over the legal load",
      floorAboveReserve: "stops above the line",
    },
    tooSmall: (least: string) => `is under ${least}`,
    tooBig: (most: string) => `is over ${most}`,
    notOneOf: (allowed: string) => `must be one of: ${allowed}`,
    other: (code: string) => `does not fit (${code})`,
    more: (count: number) => `and ${figures(count)} more`,
  },
};
export type PhoneWords = typeof en;
