import { wordGroup } from "./load.js";

export const dayWords = wordGroup({
  en: () => import("./day/en.js").then((file) => file.en),
  hi: () => import("./day/hi.js").then((file) => file.hi),
  bn: () => import("./day/bn.js").then((file) => file.bn),
  ur: () => import("./day/ur.js").then((file) => file.ur),
  sw: () => import("./day/sw.js").then((file) => file.sw),
  es: () => import("./day/es.js").then((file) => file.es),
});
