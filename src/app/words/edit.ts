import { wordGroup } from "./load.js";

export const editWords = wordGroup({
  en: () => import("./edit/en.js").then((file) => file.en),
  hi: () => import("./edit/hi.js").then((file) => file.hi),
  bn: () => import("./edit/bn.js").then((file) => file.bn),
  ur: () => import("./edit/ur.js").then((file) => file.ur),
  sw: () => import("./edit/sw.js").then((file) => file.sw),
  es: () => import("./edit/es.js").then((file) => file.es),
});
