import { wordGroup } from "./load.js";

export const restWords = wordGroup({
  en: () => import("./rest/en.js").then((file) => file.en),
  hi: () => import("./rest/hi.js").then((file) => file.hi),
  bn: () => import("./rest/bn.js").then((file) => file.bn),
  ur: () => import("./rest/ur.js").then((file) => file.ur),
  sw: () => import("./rest/sw.js").then((file) => file.sw),
  es: () => import("./rest/es.js").then((file) => file.es),
});
