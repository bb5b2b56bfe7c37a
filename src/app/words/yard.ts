import { wordGroup } from "./load.js";

export const yardWords = wordGroup({
  en: () => import("./yard/en.js").then((file) => file.en),
  hi: () => import("./yard/en.js").then((file) => file.en),
  bn: () => import("./yard/en.js").then((file) => file.en),
  ur: () => import("./yard/en.js").then((file) => file.en),
  sw: () => import("./yard/en.js").then((file) => file.en),
  es: () => import("./yard/en.js").then((file) => file.en),
});
