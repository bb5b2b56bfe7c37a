import { wordGroup } from "./load.js";

const file = {
  en: () => import("./money/en.js"),
  hi: () => import("./money/hi.js"),
  bn: () => import("./money/bn.js"),
  ur: () => import("./money/ur.js"),
  sw: () => import("./money/sw.js"),
  es: () => import("./money/es.js"),
};

/** Words of the money screens, one chunk a language. */
export const moneyWords = wordGroup({
  en: () => file.en().then((words) => words.en),
  hi: () => file.hi().then((words) => words.hi),
  bn: () => file.bn().then((words) => words.bn),
  ur: () => file.ur().then((words) => words.ur),
  sw: () => file.sw().then((words) => words.sw),
  es: () => file.es().then((words) => words.es),
});
