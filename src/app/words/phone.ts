import { wordGroup } from "./load.js";

export const phoneWords = wordGroup({
  en: () => import("./phone/en.js").then((file) => file.en),
  hi: () => import("./phone/hi.js").then((file) => file.hi),
  bn: () => import("./phone/bn.js").then((file) => file.bn),
  ur: () => import("./phone/ur.js").then((file) => file.ur),
  sw: () => import("./phone/sw.js").then((file) => file.sw),
  es: () => import("./phone/es.js").then((file) => file.es),
});
