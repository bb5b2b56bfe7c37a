import { wordGroup } from "./load.js";

const en = () => import("./fleet/en.js").then((file) => file.en);
export const fleetWords = wordGroup({ en, hi: en, bn: en, ur: en, sw: en, es: en });
