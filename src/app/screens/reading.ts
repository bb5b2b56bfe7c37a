import { restWords } from "../words/rest.js";

// What Today fetches when help is first asked for.
export const load = restWords.load;
export { firstHour, HourReader, StripLegend } from "../parts/HourReader.js";
export { MovesLink } from "./KitLinks.js";
export { RestLinks } from "./RestLinks.js";
