import { settings } from "../settings.js";
import { tagOf } from "../words/format.js";

/** First letters of the months, January first; one letter with its signs where a script's short form is longer. */
export function monthLetters(): string[] {
  const tag = tagOf(settings.value.language);
  const name = new Intl.DateTimeFormat(tag, { month: "narrow", timeZone: "UTC" });
  const letters = new Intl.Segmenter(tag, { granularity: "grapheme" });
  return Array.from({ length: 12 }, (_, m) => {
    const [first] = letters.segment(name.format(Date.UTC(2027, m, 15)));
    return first?.segment ?? "";
  });
}
