import { wordGroup } from "./load.js";

export const startWords = wordGroup({
  en: () => import("./start/en.js").then((file) => file.en),
  hi: () => import("./start/hi.js").then((file) => file.hi),
  bn: () => import("./start/bn.js").then((file) => file.bn),
  ur: () => import("./start/ur.js").then((file) => file.ur),
  sw: () => import("./start/sw.js").then((file) => file.sw),
  es: () => import("./start/es.js").then((file) => file.es),
});
