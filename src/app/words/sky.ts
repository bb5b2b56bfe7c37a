import { wordGroup } from "./load.js";

export const skyWords = wordGroup({
  en: () => import("./sky/en.js").then((file) => file.en),
  hi: () => import("./sky/en.js").then((file) => file.en),
  bn: () => import("./sky/en.js").then((file) => file.en),
  ur: () => import("./sky/en.js").then((file) => file.en),
  sw: () => import("./sky/en.js").then((file) => file.en),
  es: () => import("./sky/en.js").then((file) => file.en),
});
