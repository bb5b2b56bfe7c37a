import { wordGroup } from "./load.js";

export const kitWords = wordGroup({
  en: () => import("./kit/en.js").then((file) => file.en),
  hi: () => import("./kit/hi.js").then((file) => file.hi),
  bn: () => import("./kit/bn.js").then((file) => file.bn),
  ur: () => import("./kit/ur.js").then((file) => file.ur),
  sw: () => import("./kit/sw.js").then((file) => file.sw),
  es: () => import("./kit/es.js").then((file) => file.es),
});
