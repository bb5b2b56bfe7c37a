import { figures, n, sn } from "../format.js";
import type { ListWords } from "./en.js";

export const hi: ListWords = {
  tomorrow: (count) => `${figures(count)} गाड़ियाँ`,
  tally: { short: "कम", tight: "मुश्किल", notKnown: "पता नहीं", enough: "काफ़ी", off: "सड़क पर नहीं" },
  shortKm: (km) => `${n(km)} किमी कम`,
  tight: (up, down) => `${sn(up)} या ${sn(-down)} किमी`,
  enoughKm: (km) => `${sn(km)} किमी`,
  readGauge: "मीटर पढ़ो",
  giveRound: "चक्कर दो",
  working: "हिसाब हो रहा है",
  find: "नंबर खोजो",
  noneFound: "इस नंबर की कोई गाड़ी नहीं।",
  slate: "स्लेट लिखो",
  log: "अंदाज़ा और असल",
  newVehicle: "नई गाड़ी",
  rounds: "चक्कर",
  phone: "यह फ़ोन",
  empty: "अभी कोई गाड़ी नहीं। पाँच बार छुओ।",
  five: "पाँच बार छुओ",
  spoken: (short, tight, unknown, enough) =>
    `${figures(short)} कम, ${figures(tight)} मुश्किल से, ${figures(unknown)} पता नहीं, ${figures(enough)} काफ़ी।`,
};
