import { wordGroup } from "./load.js";

export const tonightWords = wordGroup({
  en: () => import("./tonight/en.js").then((file) => file.en),
  hi: () => import("./tonight/hi.js").then((file) => file.hi),
  bn: () => import("./tonight/bn.js").then((file) => file.bn),
  ur: () => import("./tonight/ur.js").then((file) => file.ur),
  sw: () => import("./tonight/sw.js").then((file) => file.sw),
  es: () => import("./tonight/es.js").then((file) => file.es),
});
