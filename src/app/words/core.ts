import { wordGroup } from "./load.js";

const en = () => import("./en.js").then((file) => file.en);
export const core = wordGroup({ en, hi: en, bn: en, ur: en, sw: en, es: en });
