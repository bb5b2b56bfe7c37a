import { expect, test } from "vitest";
import { encodingOf } from "../../../src/records/import/encoding.js";
import { gpxReader, MOST_POINTS, readGpx, timeOf } from "../../../src/records/import/gpx.js";

const GPX = 'xmlns="http://www.topografix.com/GPX/1/1"';
const two = '<trkpt lat="1" lon="2"/><trkpt lat="1.01" lon="2"/>';
const file = (inside: string, attributes = GPX) =>
  `<?xml version="1.0"?>\n<gpx version="1.1" ${attributes}>${inside}</gpx>`;
const track = (inside: string) => file(`<trk><trkseg>${inside}</trkseg></trk>`);

/** Reads in pieces of `size` characters. */
function inPieces(text: string, size: number) {
  const reader = gpxReader();
  for (let at = 0; at < text.length; at += size) if (reader.push(text.slice(at, at + size))) break;
  return reader.end();
}

const RICH = file(`
  <metadata><name>not the track</name><time>2027-02-10T00:00:00Z</time></metadata>
  <wpt lat="1.005" lon="2"><ele>7</ele><name>Fish &amp; ice &#x2603;</name></wpt>
  <!-- a comment with <trkpt lat="9" lon="9"/> -->
  <trk><name><![CDATA[Round <1>]]></name>
    <extensions><x:trkpt xmlns:x="urn:other" lat="5" lon="5"><x:name>no</x:name></x:trkpt></extensions>
    <trkseg>
      <trkpt lat="1.000" lon='2.0'><ele>12.5</ele><time>2027-02-10T05:00:00Z</time><extensions><ele>99</ele></extensions></trkpt>
      <trkpt  lon = "2.0"
        lat="1.010" ><ele>nothing</ele><time>2027-02-10T08:31:00.5+03:30</time></trkpt>
      <trkpt lat="1.02" lon="2.0"><time>yesterday</time></trkpt>
    </trkseg></trk>
  <rte><name>Plan</name><rtept lat="3" lon="4"><name>gate</name></rtept><rtept lat="3.1" lon="4"/></rte>`);

test("tracks, routes, places, heights and times of a file come out, other namespaces and extensions do not", () => {
  const read = readGpx(RICH);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { tracks, places } = read.value;
  expect(tracks.map((t) => [t.name, t.kind, t.points.latDeg.length])).toEqual([
    ["Round <1>", "track", 3],
    ["Plan", "route", 2],
  ]);
  expect(tracks[0]?.points.latDeg).toEqual([1, 1.01, 1.02]);
  expect(tracks[0]?.points.lonDeg).toEqual([2, 2, 2]);
  expect(tracks[0]?.points.heightM).toEqual([12.5, Number.NaN, Number.NaN]);
  expect(tracks[0]?.points.utcMs).toEqual([Date.UTC(2027, 1, 10, 5), Date.UTC(2027, 1, 10, 5, 1, 0, 500), Number.NaN]);
  expect(places).toEqual([{ name: "Fish & ice \u2603", latDeg: 1.005, lonDeg: 2 }]);
});

test("a file read in pieces of any size is the same file", () => {
  const whole = readGpx(RICH);
  for (const size of [1, 2, 3, 7, 64, 1000]) expect(inPieces(RICH, size)).toEqual(whole);
});

test("prefixes stand for their namespace, and names without any are taken", () => {
  const prefixed = `<g:gpx xmlns:g="http://www.topografix.com/GPX/1/1"><g:trk><g:trkseg><g:trkpt lat="1" lon="2"/><g:trkpt lat="1.1" lon="2"/></g:trkseg></g:trk></g:gpx>`;
  expect(readGpx(prefixed).ok).toBe(true);
  expect(readGpx(`\ufeff<gpx><trk><trkseg>${two}</trkseg></trk></gpx>`).ok).toBe(true);
  expect(readGpx(file(`<trk><trkseg>${two}</trkseg></trk>`, 'xmlns="http://www.topografix.com/GPX/1/0"')).ok).toBe(
    true,
  );
});

const bomb = `<?xml version="1.0"?>\n<!DOCTYPE gpx [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;">]>\n<gpx ${GPX}>&b;</gpx>`;
const refused: readonly [string, string, string, number | null][] = [
  ["an entity bomb", bomb, "xmlDoctype", 2],
  ["a file to be pulled in", `<!DOCTYPE gpx SYSTEM "file:///etc/passwd">\n<gpx/>`, "xmlDoctype", 1],
  ["an entity of its own", track(`${two}\n<trkpt lat="1" lon="&evil;"/>`), "xmlEntity", 3],
  ["an entity in the text", file(`<trk><name>\n&nbsp;</name></trk>`), "xmlEntity", 2],
  ["a lone ampersand", file("<trk><name>Fish & ice</name></trk>"), "xmlEntity", 2],
  ["deep nesting", file("\n<a>".repeat(5000)), "xmlTooDeep", 66],
  ["a picture", "\u0000\u0001\u0002PNG\u0000", "xmlBinary", 1],
  ["a binary tail", `${track(two)}\n\u0000\u0000`, "xmlBinary", 3],
  ["a table", "lat,lon\n1,2\n", "xmlNotXml", 1],
  ["nothing", "", "xmlEmpty", 1],
  ["white space only", " \n \n", "xmlEmpty", 3],
  ["a cut file", `${track(two).slice(0, -30)}`, "xmlCutOff", 2],
  ["a file cut inside a tag", track(two).slice(0, 130), "xmlCutOff", 2],
  ["tags that do not close", file("<trk>\n</trkseg>"), "xmlMismatch", 3],
  ["two roots", `${track(two)}\n<gpx/>`, "xmlAfterEnd", 3],
  ["an unknown prefix", "<q:gpx/>", "xmlPrefix", 1],
  ["an attribute twice", track('<trkpt lat="1" lat="2" lon="3"/>'), "xmlBadTag", 2],
  ["an attribute without quotes", track("<trkpt lat=1 lon=3/>"), "xmlBadTag", 2],
  ["a tag without end", `<gpx ${GPX}><trk ${"a".repeat(1_100_000)}`, "xmlTooLong", 1],
  ["another kind of file", "<kml><trk/></kml>", "gpxNotGpx", 1],
  ["another namespace", file("<trk/>", 'xmlns="urn:else"'), "gpxNotGpx", 2],
  ["no track at all", file('<wpt lat="1" lon="2"/>'), "gpxNoTrack", null],
  ["a single point", track('<trkpt lat="1" lon="2"/>'), "gpxNoTrack", null],
  [
    "points off the Earth",
    track('\n<trkpt lat="91" lon="2"/><trkpt lat="1" lon="NaN"/><trkpt lon="3"/>'),
    "gpxBadPoint",
    3,
  ],
];

test.each(refused)("%s is refused with its line", (_what, text, code, line) => {
  const read = readGpx(text);
  expect(read.ok ? "taken" : read.problems.map((p) => [p.code, p.figures?.line ?? null])).toEqual([[code, line]]);
});

test("an endless file is refused before it is held", () => {
  const reader = gpxReader();
  reader.push(`<gpx ${GPX}>`);
  const piece = `<wpt lat="1" lon="2"><desc>${"x".repeat(60_000)}</desc></wpt>\n`;
  let pieces = 0;
  while (reader.push(piece) === null && pieces < 2000) pieces++;
  expect(pieces).toBeLessThan(600);
  const read = reader.end();
  expect(read.ok ? "taken" : read.problems[0]?.code).toBe("gpxTooBig");
});

test("too many points are refused", () => {
  const reader = gpxReader();
  reader.push(`<gpx ${GPX}><trk><trkseg>`);
  const piece = '<trkpt lat="1" lon="2"/>'.repeat(1000);
  for (let i = 0; i <= MOST_POINTS / 1000; i++) reader.push(piece);
  const read = reader.end();
  expect(read.ok ? "taken" : read.problems[0]?.code).toBe("gpxTooManyPoints");
});

test("after a refusal nothing more is taken", () => {
  const reader = gpxReader();
  expect(reader.push("<!DOCTYPE x>")?.code).toBe("xmlDoctype");
  expect(reader.push(track(two))?.code).toBe("xmlDoctype");
  expect(reader.end().ok).toBe(false);
});

test("noise of every kind never throws", () => {
  const bits = [
    "<",
    ">",
    "</trk>",
    "<trk>",
    "<!--",
    "-->",
    "<![CDATA[",
    "]]>",
    "&lt;",
    "&",
    "&#0;",
    "&#xD800;",
    '"',
    "'",
    "<?",
    "?>",
    " a=",
    "\n",
    "<gpx>",
  ];
  let seed = 1;
  const next = (n: number) => {
    seed = (Math.imul(seed, 1_103_515_245) + 12_345) >>> 0;
    return (seed >>> 8) % n;
  };
  for (let run = 0; run < 3000; run++) {
    const text = Array.from({ length: 1 + next(12) }, () => bits[next(bits.length)]).join("");
    expect(readGpx(`<gpx>${text}`).ok).toBe(false);
  }
});

test("times are XML Schema instants; without a zone they are UTC", () => {
  expect(timeOf("2027-02-10T05:00:00Z")).toBe(Date.UTC(2027, 1, 10, 5));
  expect(timeOf("2027-02-10T05:00:00")).toBe(Date.UTC(2027, 1, 10, 5));
  expect(timeOf("2027-02-10T05:00:00.250-02:00")).toBe(Date.UTC(2027, 1, 10, 7, 0, 0, 250));
  for (const text of ["2027-02-10", "10 Feb 2027 05:00", "2027-13-10T05:00:00Z", ""]) expect(timeOf(text)).toBeNaN();
});

test("the encoding is told by the first bytes", () => {
  const bytes = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0));
  expect(encodingOf(bytes('<?xml version="1.0" encoding="ISO-8859-1"?>'))).toBe("iso-8859-1");
  expect(encodingOf(bytes("\u00ef\u00bb\u00bf<?xml version='1.0' encoding='utf-8'?>"))).toBe("utf-8");
  expect(encodingOf(bytes("<gpx>"))).toBe("utf-8");
  expect(encodingOf(Uint8Array.of(0xff, 0xfe, 0x3c, 0))).toBe("utf-16le");
  expect(encodingOf(Uint8Array.of(0xfe, 0xff, 0, 0x3c))).toBe("utf-16be");
  expect(encodingOf(Uint8Array.of(0x3c, 0, 0x67, 0))).toBe("utf-16le");
});
