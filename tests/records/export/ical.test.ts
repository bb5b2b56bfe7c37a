import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { calendarFile, calendarInstant, calendarText, foldedLine, octetsOf } from "../../../src/records/export/ical.js";

const example = (
  JSON.parse(readFileSync("shared/reference/depot/calendar-object.json", "utf8")) as {
    data: { exampleLines: string[] };
  }
).data.exampleLines;

// What a reader of RFC 5545 does: join the folded lines, then take the marks away.
const unfold = (file: string): string => file.replace(/\r\n[ \t]/g, "");
const plain = (text: string): string => text.replace(/\\([\\;,nN])/g, (_, c: string) => (/n/i.test(c) ? "\n" : c));

test("octets agree with the platform's own encoder", () => {
  fc.assert(
    fc.property(
      fc.string({ unit: "binary" }).filter((text) => text.isWellFormed()),
      (text) => {
        expect(octetsOf(text)).toBe(new TextEncoder().encode(text).length);
      },
    ),
  );
});

test("folded lines stay within 75 octets and give the line back", () => {
  fc.assert(
    fc.property(fc.string({ unit: "grapheme", maxLength: 300 }), (text) => {
      const pieces = foldedLine(`SUMMARY:${text}`);
      for (const piece of pieces) expect(octetsOf(piece)).toBeLessThanOrEqual(75);
      expect(pieces.map((piece, i) => (i === 0 ? piece : piece.slice(1))).join("")).toBe(`SUMMARY:${text}`);
    }),
  );
});

test("escaped text gives the text back and holds no bare line end", () => {
  fc.assert(
    fc.property(fc.string(), (text) => {
      const marked = calendarText(text);
      expect(marked).not.toMatch(/[\r\n]/);
      expect(plain(marked)).toBe(text.replace(/\r\n|\r/g, "\n"));
    }),
  );
});

test("an instant is written in UTC as the example of RFC 5545 writes it", () => {
  const start = example.find((line) => line.startsWith("DTSTART:"))?.slice("DTSTART:".length);
  expect(calendarInstant(Date.UTC(1997, 6, 14, 17, 0, 0))).toBe(start);
});

test("the file has the lines that sections 3.4 and 3.6.1 of RFC 5545 ask for, each ended by CRLF", () => {
  const at = Date.UTC(2027, 1, 10, 20, 30);
  const event = { uid: "n1/s4@noonplug", sequence: 2, fromUtcMs: at, toUtcMs: at + 3_600_000, summary: "Socket 4; 23" };
  const file = calendarFile([event, { ...event, uid: "n1/s5@noonplug", location: "Quay, wall" }], at);
  expect(file.endsWith("END:VCALENDAR\r\n")).toBe(true);
  expect(file.replace(/\r\n/g, "")).not.toMatch(/[\r\n]/);
  const lines = unfold(file).split("\r\n");
  expect(lines.filter((line) => line === "BEGIN:VEVENT")).toHaveLength(2);
  for (const needed of ["VERSION:2.0", "DTSTART:20270210T203000Z", "DTEND:20270210T213000Z", "SEQUENCE:2"])
    expect(lines).toContain(needed);
  expect(lines).toContain("SUMMARY:Socket 4\\; 23");
  expect(lines).toContain("LOCATION:Quay\\, wall");
  expect(lines.filter((line) => line.startsWith("UID:"))).toEqual(["UID:n1/s4@noonplug", "UID:n1/s5@noonplug"]);
});
