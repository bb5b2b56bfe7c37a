import { clock, fig, figures, n, n1, plural } from "../format.js";

const from = (hour: number): string => fig(clock(hour));

/** The night: board, hands, reasons, paper, lost supply. */
export const en = {
  night: (first: string, second: string) => `night of ${first} to ${second}`,
  short: "Short:",
  nobodyShort: "Nobody short",
  leftShort: (count: number) => `${n(count)} left short`,
  tally: (enough: number, tight: number, unknown: number) =>
    `${n(enough)} enough, ${n(tight)} tight, ${n(unknown)} not known`,
  working: (percent: number) => `Working out the night, ${n(percent)} %`,
  bettering: "Looking for a better plan",
  noSockets: "How many sockets?",
  noSocketsWhy: "Write down the sockets of the yard, then the night is planned.",
  noVehicles: "No vehicle yet. Five taps.",
  toYard: "The yard",
  nobodyNeeds: "Nobody needs the plug tonight.",

  hands: "Next hands",
  noHands: "No more plugs to move.",
  socket: "socket",
  out: "out",
  in: "in",
  done: "Done",
  doneSays: (socket: string) => `Socket ${socket} done.`,
  more: (count: number) => `All ${figures(count)} walks`,

  board: {
    picture: "Sockets against the hours of the night",
    dear: "dear",
    usual: "usual",
    cheap: "cheap",
    awake: "watch awake",
    asleep: "asleep, no swaps",
    asleepShort: "asleep",
    noSupply: "no supply",
  },
  topKw: (kw: number) => `most ${n1(kw)} kW`,
  topOf: (kw: number, limit: number) => `${n1(kw)} of ${n1(limit)} kW`,
  bank: (first: string, last: string) => (first === last ? `Socket ${first}` : `${first}\u2013${last}`),
  cut: "Supply fails",
  print: "Print slate",
  follow: "Follow this plan",
  followAgain: "Follow the new plan",
  followed: (plan: number) => `Plan ${figures(plan)} is followed.`,
  followedSays: "This plan is followed now.",
  calendar: "Calendar",
  table: "Table",

  proof: {
    served: "Nobody else could be served (proved).",
    perhaps: (count: number) => `At most ${n(count)} more could perhaps be served.`,
    moneyLeast: "Money: the least possible (proved).",
    moneyGap: (percent: number) => `Money: at most ${n1(percent)} % above the least possible.`,
    cost: (money: string) => `The night costs ${fig(money)}.`,
    fee: (money: string, count: number) =>
      `${n(count)} ${plural(count, { one: "charge", other: "charges" })} at a flat fee: ${fig(money)}.`,
    unpriced: "No price is known: units only.",
  },

  shortList: "Tomorrow, if nothing changes",
  kmUnder: (km: number) => `${n(km)} km under the line`,
  unitsUnder: (units: number) => `${n1(units)} units missing`,
  why: {
    fullTooLittle: "Even a full set is too little for this round.",
    noSocketFits: "No socket fits its plug.",
    stayTooShort: (minutes: number) =>
      `It stands too short a time for its charger: ${n(minutes)} ${plural(minutes, { one: "minute", other: "minutes" })} more would do.`,
    cutTakesTheTime: "The power cut takes the time.",
    nobodyAwake: (hour: number) => `Nobody is awake to plug it in at ${from(hour)}. One waking would do.`,
    siteFull: (first: number, last: number, kw: number) =>
      `The site is full from ${from(first)} to ${from(last)}. ${n1(kw)} kW more would do.`,
    socketsHeld: (hour: number) => `All sockets that fit are held at ${from(hour)}. One more socket would do.`,
    nothingFree: (first: number, last: number) =>
      `Neither a socket nor power is free from ${from(first)} to ${from(last)}.`,
    roomLeft: "There is room left: a better plan may still be found.",
    chargerDead: "Its charger is dead.",
    cannotCharge: "The set is too cold to take a charge.",
  },
  whyThen: {
    onArrival: "Plugged in when it comes.",
    waits: "Waits for cheaper hours.",
    waitsForCheap: (money: string) => `Waits for cheaper hours and saves ${fig(money)}.`,
    noHurry: "Nothing is lost by waiting.",
    siteWasFull: "The site was full before.",
    socketWasHeld: "Its socket was held before.",
  },
  ways: {
    shorterRound: (km: number) => `Give a round of ${n(km)} km or less`,
    swapRounds: (plate: string, km: number) => `Swap rounds with ${fig(plate)}: ${n(km)} km`,
    readGauge: "Read its gauge",
    ownPlug: "Write down its plug",
    giveRound: "Give it a round",
    anotherCharger: "Lend it another vehicle for the day",
  },
  unread: "Gauge not read: planned at the worse guess.",
  allSlots: "All plug-ins",
  slot: (socket: string, plugAt: number, outAt: number) => `socket ${fig(socket)}, ${from(plugAt)} to ${from(outAt)}`,
  charge: (first: number, last: number) => `charges ${from(first)} to ${from(last)}`,
  leavesWith: (percent: number, units: number) => `leaves with ${n(percent)} %, ${n1(units)} units`,
  needsNothing: "needs no plug tonight",
  noSlot: "no slot tonight",
  leaves: (hour: number) => `leaves ${from(hour)}`,

  events: {
    cameLate: "Came late",
    howLate: "Comes how much later?",
    hours: (hours: number) => (hours < 1 ? `${figures(hours * 60)} min` : `${figures(hours)} h`),
    chargerDead: "Its charger is dead",
    socketDead: "This socket is dead",
    kept: "Written down. The plan is worked out again.",
    told: "Written for this night",
  },

  problems: {
    noMeterLimit: "No meter limit known. How many kW may the yard draw?",
    limitKept: (kw: number) => `Site limit ${figures(kw)} kW.`,
    limitAsk: "Site limit",
    baseLoadFillsLimit: (hour: number) =>
      `From ${from(hour)} the other users alone reach the site limit: nothing charges then.`,
    noSocketFits: (plate: string) => `No socket fits the plug of ${fig(plate)}.`,
    socketFitsNobody: (socket: string) => `Socket ${fig(socket)} fits no vehicle.`,
    leavesBeforeHome: (plate: string) => `${fig(plate)} would leave before it is home: it leaves when it is back.`,
    noRound: (plate: string) => `${fig(plate)} has no round for tomorrow: not planned.`,
    zoneUnknown: (zone: string) => `The time zone ${zone} is not known: no night can be planned.`,
    other: "Something in the yard's figures does not fit. Look at the yard.",
  },

  supply: {
    title: "Supply fails",
    asks: "Lost for how long?",
    hours: (hours: number) => `${figures(hours)} h`,
    backAt: (hour: number) => `back at ${from(hour)}`,
    before: "Short as planned",
    after: "Short then",
    nobody: "nobody",
    first: "First back on",
    accept: "Make this the plan",
    accepted: "The plan counts with the cut now.",
    moved: (count: number) => `${n(count)} ${plural(count, { one: "plug-in moves", other: "plug-ins move" })}.`,
  },

  slate: {
    title: "Slate",
    sheet: (sheet: number, of: number) => `sheet ${figures(sheet)} of ${figures(of)}`,
    plan: (hour: number) => `plan of ${clock(hour)}`,
    sockets: (first: string, last: string) => `sockets ${first} to ${last}`,
    shortWord: "SHORT",
    supplyFailed: "Supply off",
    at: "at",
    backAt: "back at",
    firstOn: "First back on",
    readGauge: "Read the gauge",
    stroke: "Stroke through each one done.",
    under: (km: number) => `${figures(km)} km under`,
    print: "Print",
  },

  walls: {
    title: (count: number) => `${figures(count)} yards`,
    nobody: "nobody short",
    full: "full",
    more: (count: number) => `+${figures(count)}`,
    open: (name: string) => `Open ${name}`,
  },

  cautions: {
    plan: "A plan, not a permit. A warm plug is a stop sign. Maker's manual, local rules and a licensed electrician come first.",
    breaker: (amps: number, breaker: number) =>
      `Charging runs for hours: a breaker of ${figures(breaker)} A is for at most ${figures(amps)} A of it. No daisy chains, unwind the drum.`,
    gas: (count: number, blocks: number, air: number, opening: number) =>
      `${figures(count)} lead-acid ${plural(count, { one: "set", other: "sets" })} (${figures(blocks)} blocks) at once: ${figures(air)} m³ of air an hour, or two openings of ${figures(opening)} cm². Box lid open, no flame.`,
    supply: "Only a metered supply. Joining a generator is a licensed electrician's work.",
    cold: "Too cold to charge this set. Read the maker's limit.",
  },

  calendarText: {
    summary: (plate: string, socket: string) => `Plug in ${plate} at socket ${socket}`,
    until: (hour: number) => `Pull out at ${clock(hour)}`,
    swap: (outPlate: string) => `Pull out ${outPlate} first`,
  },
  tableHead: [
    "night",
    "socket",
    "vehicle",
    "plug in",
    "charge starts",
    "charge ends",
    "pull out",
    "units",
    "money",
    "level at leaving %",
    "short",
    "done",
  ],
  yes: "yes",
  no: "no",
};
export type TonightWords = typeof en;
