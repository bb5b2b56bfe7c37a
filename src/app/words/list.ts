import { wordGroup } from "./load.js";

export const listWords = wordGroup({
  en: () => import("./list/en.js").then((file) => file.en),
  hi: () => import("./list/hi.js").then((file) => file.hi),
  bn: () => import("./list/bn.js").then((file) => file.bn),
  ur: () => import("./list/ur.js").then((file) => file.ur),
  sw: () => import("./list/sw.js").then((file) => file.sw),
  es: () => import("./list/es.js").then((file) => file.es),
});
