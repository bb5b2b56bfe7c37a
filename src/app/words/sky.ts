import { wordGroup } from "./load.js";

export const skyWords = wordGroup({
  en: () => import("./sky/en.js").then((file) => file.en),
  hi: () => import("./sky/hi.js").then((file) => file.hi),
  bn: () => import("./sky/bn.js").then((file) => file.bn),
  ur: () => import("./sky/ur.js").then((file) => file.ur),
  sw: () => import("./sky/sw.js").then((file) => file.sw),
  es: () => import("./sky/es.js").then((file) => file.es),
});
