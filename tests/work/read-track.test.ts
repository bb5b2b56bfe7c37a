import { expect, test } from "vitest";
import { readTrackFile } from "../../src/work/read-track.js";
import { drive, gpxOf } from "../records/import/track-maker.js";

const xml = gpxOf(drive([{ eastM: 3000, northM: 0, speedMs: 6 }]));
const read = (parts: BlobPart[]) => readTrackFile(new Blob(parts), () => {});
const nameOf = async (parts: BlobPart[]) => {
  const outcome = await read(parts);
  return outcome.ok ? outcome.value[0]?.name : outcome.problems[0]?.code;
};
const utf16 = (text: string, bigEnd: boolean): ArrayBuffer => {
  const bytes = new DataView(new ArrayBuffer(text.length * 2));
  for (let i = 0; i < text.length; i++) bytes.setUint16(i * 2, text.charCodeAt(i), !bigEnd);
  return bytes.buffer as ArrayBuffer;
};

test("a file comes out as rounds and tells how far it is", async () => {
  const shares: number[] = [];
  const outcome = await readTrackFile(new Blob([xml]), (share) => shares.push(share));
  expect(outcome.ok && outcome.value[0]?.km).toBeCloseTo(3, 1);
  expect(shares[shares.length - 1]).toBe(1);
});

test("a file longer than a piece is read across the seam, inside letters of several bytes too", async () => {
  const padding = "सड़क ".repeat(130_000);
  const outcome = await read([
    xml.replace("<trk>", `<metadata><desc>${padding.slice(0, 500_000)}</desc></metadata><trk>`),
  ]);
  expect(outcome.ok).toBe(true);
});

test("UTF-8, UTF-16 and Latin letters keep their names", async () => {
  const named = (name: string, encoding: string) => xml.replace("Morning", name).replace("UTF-8", encoding);
  expect(await nameOf([named("दूध", "UTF-8")])).toBe("दूध");
  expect(await nameOf([utf16(`\ufeff${named("दूध", "UTF-16")}`, false)])).toBe("दूध");
  expect(await nameOf([utf16(`\ufeff${named("দুধ", "UTF-16")}`, true)])).toBe("দুধ");
  expect(await nameOf([Uint8Array.from(named("Málaga", "ISO-8859-1"), (c) => c.charCodeAt(0))])).toBe("Málaga");
});

test("what is no text, or of an unknown encoding, or too big, is refused", async () => {
  expect(await nameOf([Uint8Array.of(0x3c, 0x67, 0xff, 0xff, 0x80)])).toBe("gpxEncoding");
  expect(await nameOf([xml.replace("UTF-8", "x-nobody")])).toBe("gpxEncoding");
  expect(await nameOf([])).toBe("xmlEmpty");
  expect(await nameOf([new Uint8Array(70 << 20)])).toBe("gpxTooBig");
  expect(await nameOf([new Uint8Array(50 << 20).fill(0x20)])).toBe("xmlTooLong");
  expect(await nameOf([crypto.getRandomValues(new Uint8Array(60_000))])).toBe("gpxEncoding");
});
