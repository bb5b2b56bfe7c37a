import { wordGroup } from "./load.js";

export const editWords = wordGroup({
  en: () => import("./edit/en.js").then((file) => file.en),
  hi: () => import("./edit/en.js").then((file) => file.en),
  bn: () => import("./edit/en.js").then((file) => file.en),
  ur: () => import("./edit/en.js").then((file) => file.en),
  sw: () => import("./edit/en.js").then((file) => file.en),
  es: () => import("./edit/en.js").then((file) => file.en),
});
