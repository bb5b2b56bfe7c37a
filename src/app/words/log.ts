import { wordGroup } from "./load.js";

export const logWords = wordGroup({
  en: () => import("./log/en.js").then((file) => file.en),
  hi: () => import("./log/hi.js").then((file) => file.hi),
  bn: () => import("./log/bn.js").then((file) => file.bn),
  ur: () => import("./log/ur.js").then((file) => file.ur),
  sw: () => import("./log/sw.js").then((file) => file.sw),
  es: () => import("./log/es.js").then((file) => file.es),
});
