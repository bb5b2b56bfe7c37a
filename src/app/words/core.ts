import { wordGroup } from "./load.js";

export const core = wordGroup({
  en: () => import("./en.js").then((file) => file.en),
  hi: () => import("./hi.js").then((file) => file.hi),
  bn: () => import("./bn.js").then((file) => file.bn),
  ur: () => import("./ur.js").then((file) => file.ur),
  sw: () => import("./sw.js").then((file) => file.sw),
  es: () => import("./es.js").then((file) => file.es),
});
