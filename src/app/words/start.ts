import { wordGroup } from "./load.js";

const en = () => import("./start/en.js").then((file) => file.en);
export const startWords = wordGroup({ en, hi: en, bn: en, ur: en, sw: en, es: en });
