import { wordGroup } from "./load.js";

export const sheetWords = wordGroup({
  en: () => import("./sheet/en.js").then((file) => file.en),
  hi: () => import("./sheet/hi.js").then((file) => file.hi),
  bn: () => import("./sheet/bn.js").then((file) => file.bn),
  ur: () => import("./sheet/ur.js").then((file) => file.ur),
  sw: () => import("./sheet/sw.js").then((file) => file.sw),
  es: () => import("./sheet/es.js").then((file) => file.es),
});
