import { wordGroup } from "./load.js";

const en = () => import("./phone/en.js").then((file) => file.en);
export const phoneWords = wordGroup({ en, hi: en, bn: en, ur: en, sw: en, es: en });
