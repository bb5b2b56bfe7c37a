import { wordGroup } from "./load.js";

export const roundsWords = wordGroup({
  en: () => import("./rounds/en.js").then((file) => file.en),
  hi: () => import("./rounds/hi.js").then((file) => file.hi),
  bn: () => import("./rounds/bn.js").then((file) => file.bn),
  ur: () => import("./rounds/ur.js").then((file) => file.ur),
  sw: () => import("./rounds/sw.js").then((file) => file.sw),
  es: () => import("./rounds/es.js").then((file) => file.es),
});
