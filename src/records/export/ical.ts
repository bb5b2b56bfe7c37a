/** Text as it stands in a calendar file: backslash, semicolon, comma and line end are marked. Source: RFC 5545, section 3.3.11. */
export const calendarText = (text: string): string =>
  text
    .replaceAll("\\", "\\\\")
    .replaceAll(";", "\\;")
    .replaceAll(",", "\\,")
    .replace(/\r\n|\r|\n/g, "\\n");

const LONGEST_OCTETS = 75;

/** Octets of one character in UTF-8. Source: RFC 3629, section 3. */
function octetsOfCharacter(character: string): number {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}

/** Cuts a content line into pieces of at most 75 octets; each further piece begins with a space, and no character is split. Source: RFC 5545, section 3.1. */
export function foldedLine(line: string): string[] {
  const pieces: string[] = [];
  let piece = "";
  let octets = 0;
  for (const character of line) {
    const size = octetsOfCharacter(character);
    if (octets + size > LONGEST_OCTETS) {
      pieces.push(piece);
      piece = " ";
      octets = 1;
    }
    piece += character;
    octets += size;
  }
  return [...pieces, piece];
}

/** Octets of a line in UTF-8. */
export const octetsOf = (line: string): number =>
  [...line].reduce((sum, character) => sum + octetsOfCharacter(character), 0);

/** One entry of a calendar. A later export of the same slot keeps its `uid` and raises `sequence`. */
export interface CalendarEvent {
  readonly uid: string;
  readonly sequence: number;
  readonly fromUtcMs: number;
  /** The first moment that is no longer part of it. */
  readonly toUtcMs: number;
  readonly summary: string;
  readonly description?: string;
  readonly location?: string;
}

/** An instant as `20270210T204500Z`. Source: RFC 5545, section 3.3.5, form 2. */
export const calendarInstant = (utcMs: number): string =>
  `${new Date(utcMs).toISOString().slice(0, 19).replace(/[-:]/g, "")}Z`;

function eventLines(event: CalendarEvent, stampUtcMs: number): string[] {
  const { uid, sequence, fromUtcMs, toUtcMs, summary, description, location } = event;
  return [
    "BEGIN:VEVENT",
    `UID:${calendarText(uid)}`,
    `DTSTAMP:${calendarInstant(stampUtcMs)}`,
    `DTSTART:${calendarInstant(fromUtcMs)}`,
    `DTEND:${calendarInstant(toUtcMs)}`,
    `SEQUENCE:${sequence}`,
    `SUMMARY:${calendarText(summary)}`,
    ...(location ? [`LOCATION:${calendarText(location)}`] : []),
    ...(description ? [`DESCRIPTION:${calendarText(description)}`] : []),
    "END:VEVENT",
  ];
}

/** A calendar file of UTC times. Source: RFC 5545, sections 3.4, 3.6.1. */
export const calendarFile = (events: readonly CalendarEvent[], stampUtcMs: number): string =>
  [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Noonplug//Night plan//EN",
    "CALSCALE:GREGORIAN",
    "METHOD:PUBLISH",
    ...events.flatMap((event) => eventLines(event, stampUtcMs)),
    "END:VCALENDAR",
  ]
    .flatMap(foldedLine)
    .map((line) => `${line}\r\n`)
    .join("");
