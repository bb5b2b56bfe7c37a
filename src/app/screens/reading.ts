// What Today fetches when help is first asked for.
export { firstHour, HourReader, StripLegend } from "../parts/HourReader.js";
export { MovesLink } from "./KitLinks.js";
export { RestLinks } from "./RestLinks.js";
