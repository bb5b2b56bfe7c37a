import { wordGroup } from "./load.js";

export const roundsWords = wordGroup({
  en: () => import("./rounds/en.js").then((file) => file.en),
  hi: () => import("./rounds/en.js").then((file) => file.en),
  bn: () => import("./rounds/en.js").then((file) => file.en),
  ur: () => import("./rounds/en.js").then((file) => file.en),
  sw: () => import("./rounds/en.js").then((file) => file.en),
  es: () => import("./rounds/en.js").then((file) => file.en),
});
