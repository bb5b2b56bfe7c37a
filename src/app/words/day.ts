import { wordGroup } from "./load.js";

const en = () => import("./day/en.js").then((file) => file.en);
export const dayWords = wordGroup({ en, hi: en, bn: en, ur: en, sw: en, es: en });
