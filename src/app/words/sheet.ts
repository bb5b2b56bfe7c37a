import { wordGroup } from "./load.js";

export const sheetWords = wordGroup({
  en: () => import("./sheet/en.js").then((file) => file.en),
  hi: () => import("./sheet/en.js").then((file) => file.en),
  bn: () => import("./sheet/en.js").then((file) => file.en),
  ur: () => import("./sheet/en.js").then((file) => file.en),
  sw: () => import("./sheet/en.js").then((file) => file.en),
  es: () => import("./sheet/en.js").then((file) => file.en),
});
