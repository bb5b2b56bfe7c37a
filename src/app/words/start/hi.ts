import { figures } from "../format.js";
import type { StartWords } from "./en.js";

export const hi: StartWords = {
  promise: ["बिना खाते के। बिना", "नेटवर्क के चलता है।"],
  ways: {
    vehicle: { title: "मेरी गाड़ी", sub: "5 बार छुओ, फिर जवाब" },
    yard: { title: "यार्ड या स्टैंड", sub: "सॉकेट, चौकीदार, कौन कम" },
    kits: { title: "मैं किट लगाता हूँ", sub: "ग्राहक के लिए छत और सेट" },
    look: { title: "पहले देखो", sub: "12 गाड़ियों का नकली यार्ड" },
  },
  staysHere: "जब तक आप न बाँटें, सब इसी फ़ोन में।",
  voice: "आवाज़",
  languages: "भाषा",
  moreLanguages: "और भाषाएँ",
  spoken: "नूनप्लग। कल के लिए काफ़ी है? चार में से एक रास्ता चुनो।",

  fiveTaps: "पाँच बार छुओ",
  tapsToGo: (left) => `${figures(left)} बार और`,
  seeTomorrow: "दिन देखो",
  looksLike: "किस जैसी दिखती है",
  looks: { passenger: "टैक्सी", goodsLarge: "टेम्पो", eRickshaw: "रिक्शा", vendingCart: "ठेला" },
  fullCharge: "एक पूरे चार्ज में चलती है",
  usualDay: "रोज़ चलती है",
  km: "किमी",
  panels: "छत पर पैनल",
  none: "नहीं",
  dashShows: "डैश दिखाता है",
  dash: { volts: "वोल्ट", bars: "डंडी", percent: "%", nothing: "कुछ नहीं" },
  spokenTaps: "पाँच बार छुओ: कैसी दिखती है, एक चार्ज में किमी, रोज़ के किमी, पैनल, और डैश क्या दिखाता है।",
  vehicleName: "मेरी गाड़ी",
  yardName: "घर",
  usualRound: "रोज़ का दिन",
  halfOut: "जाना",
  midday: "दोपहर का पड़ाव",
  halfBack: "लौटना",
  stallStop: "ठेला",
};
