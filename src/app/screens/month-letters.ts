import { settings } from "../settings.js";
import { tagOf } from "../words/format.js";

/** First letters of the months, January first. */
export function monthLetters(): string[] {
  const letter = new Intl.DateTimeFormat(tagOf(settings.value.language), { month: "narrow", timeZone: "UTC" });
  return Array.from({ length: 12 }, (_, m) => letter.format(Date.UTC(2027, m, 15)));
}
