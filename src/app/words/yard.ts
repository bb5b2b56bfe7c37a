import { wordGroup } from "./load.js";

export const yardWords = wordGroup({
  en: () => import("./yard/en.js").then((file) => file.en),
  hi: () => import("./yard/hi.js").then((file) => file.hi),
  bn: () => import("./yard/bn.js").then((file) => file.bn),
  ur: () => import("./yard/ur.js").then((file) => file.ur),
  sw: () => import("./yard/sw.js").then((file) => file.sw),
  es: () => import("./yard/es.js").then((file) => file.es),
});
