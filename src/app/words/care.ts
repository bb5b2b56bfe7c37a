import { wordGroup } from "./load.js";

export const careWords = wordGroup({
  en: () => import("./care/en.js").then((file) => file.en),
  hi: () => import("./care/hi.js").then((file) => file.hi),
  bn: () => import("./care/bn.js").then((file) => file.bn),
  ur: () => import("./care/ur.js").then((file) => file.ur),
  sw: () => import("./care/sw.js").then((file) => file.sw),
  es: () => import("./care/es.js").then((file) => file.es),
});
