import { MOUNT, type Roof, type RoofMoment, roofByOktaW, roofW } from "../../src/calc/roof/index.js";
import { type Light, lightUnder, type SunInstant, sunInstant } from "../../src/calc/sun/index.js";
import { processorUs } from "./table.js";

export interface Measured {
  readonly name: string;
  readonly nsPerCall: number;
  /** Time of the bare sines, exponentials and powers that the calculation cannot do without. */
  readonly floorNs: number;
  readonly ratio: number;
}

/** How many calls of Math a calculation needs. */
interface Needs {
  readonly sin: number;
  readonly exp: number;
  readonly pow: number;
}

let kept = 0; // what is summed up here cannot be left out by the compiler

function nsOf(calls: number, work: (i: number) => number): number {
  const began = processorUs();
  let sum = 0;
  for (let i = 0; i < calls; i++) sum += work(i);
  kept += sum;
  return ((processorUs() - began) * 1000) / calls;
}

const bare = (needs: Needs) => (i: number) => {
  const x = (i % 1000) / 300 + 0.01;
  let sum = 0;
  for (let n = 0; n < needs.sin; n++) sum += Math.sin(x + n);
  for (let n = 0; n < needs.exp; n++) sum += Math.exp(-x - n);
  for (let n = 0; n < needs.pow; n++) sum += (x + n) ** 1.7;
  return sum;
};

/** Best of many short turns, work and floor by turns: the machine may be shared, and only the shortest times are those of the code. */
function measured(name: string, needs: Needs, calls: number, work: (i: number) => number): Measured {
  const floor = bare(needs);
  const best = { nsPerCall: Number.POSITIVE_INFINITY, floorNs: Number.POSITIVE_INFINITY };
  for (let turn = 0; turn < 12; turn++) {
    best.nsPerCall = Math.min(best.nsPerCall, nsOf(calls, work));
    best.floorNs = Math.min(best.floorNs, nsOf(calls, floor));
  }
  return { name, ...best, ratio: best.nsPerCall / best.floorNs };
}

const site = { latDeg: 23.81, lonDeg: 90.41, altitudeM: 8 };
const fromUtcMs = Date.UTC(2027, 1, 10, 2);
const face = { ratedW: 200, tiltDeg: 12, gammaPerC: -0.004 };
const roof: Roof = {
  faces: [
    { ...face, sideDeg: 90 },
    { ...face, sideDeg: 270 },
  ],
  link: "trackerPerFace",
  controllerEfficiency: 0.96,
  soilingShare: 0.05,
  wireShare: 0.02,
  mismatchShare: 0.02,
  mount: MOUNT.overRoof,
  batteryNominalV: 48,
};
const moments: readonly RoofMoment[] = Array.from({ length: 64 }, (_, i) => ({
  headingDeg: (i * 37) % 360,
  airC: 20 + (i % 15),
  windMs: 1 + (i % 7),
  directBlocked: 0.13,
  diffuseBlocked: 0.11,
  albedo: 0.2,
}));
const anyHeading = moments.map((at) => ({ ...at, headingDeg: null }));
const sunAt = (i: number) => sunInstant(fromUtcMs + (i % 480) * 60_000, site, 4);

// suncalc: mean anomaly, node and longitude (6), obliquity (2), right ascension and declination (2), altitude and azimuth (9), refraction (1);
// here: refraction off and on (2), parallax (1), two zeniths (2), distance (2); five exponentials of the clear sky; air mass and pressure.
const INSTANT: Needs = { sin: 27, exp: 5, pow: 2 };
const LIGHT: Needs = { sin: 0, exp: 0, pow: 1 };
/** Per face: tilt (2) and turn (1), absorption of the glass; without a heading the glass eight times and no turn. */
const FACE: Needs = { sin: 3, exp: 1, pow: 0 };
const FACE_ANY_HEADING: Needs = { sin: 2, exp: 8, pow: 0 };
const sumOf = (...all: readonly Needs[]): Needs =>
  all.reduce((a, b) => ({ sin: a.sin + b.sin, exp: a.exp + b.exp, pow: a.pow + b.pow }), { sin: 0, exp: 0, pow: 0 });

const nine = (needs: Needs): Needs => sumOf(...new Array<Needs>(9).fill(needs));

/** Times the way from the sun to the battery bus beside the bare functions it needs, in one run. */
export function run(calls = 20_000): readonly Measured[] {
  const suns = Array.from({ length: 480 }, (_, i) => sunAt(i)).filter((sun): sun is SunInstant => sun !== null);
  const sun = (i: number) => suns[i % suns.length] as SunInstant;
  const at = (list: readonly RoofMoment[], i: number) => list[i % list.length] as RoofMoment;
  const light: { -readonly [K in keyof Light]: Light[K] } = { ghiWm2: 0, dniWm2: 0, dhiWm2: 0 };
  const byOkta = new Float64Array(9);
  const chain = (list: readonly RoofMoment[], now: SunInstant | null, i: number) =>
    now ? roofW(now, lightUnder(now, i % 9, light), roof, at(list, i)) : 0;
  const table = (list: readonly RoofMoment[], now: SunInstant | null, i: number) =>
    now ? (roofByOktaW(now, roof, at(list, i), byOkta)[3] ?? 0) : 0;
  const known = sumOf(FACE, FACE);
  const any = sumOf(FACE_ANY_HEADING, FACE_ANY_HEADING);
  const timed = (name: string, needs: Needs, work: (i: number) => number) => measured(name, needs, calls, work);
  return [
    timed("sun of an instant", INSTANT, (i) => sunAt(i)?.clearGhiWm2 ?? 0),
    timed("cloud, two faces, battery bus", sumOf(LIGHT, known), (i) => chain(moments, sun(i), i)),
    timed("the same, mean over all headings", sumOf(LIGHT, any), (i) => chain(anyHeading, sun(i), i)),
    timed("sun to battery bus", sumOf(INSTANT, LIGHT, known), (i) => chain(moments, sunAt(i), i)),
    timed("sun to battery bus, all nine covers", sumOf(INSTANT, nine(LIGHT), known), (i) =>
      table(moments, sunAt(i), i),
    ),
    timed("the same, mean over all headings", sumOf(INSTANT, nine(LIGHT), any), (i) => table(anyHeading, sunAt(i), i)),
  ];
}

/** Of no meaning; keeps the work above alive. */
export const keptSum = (): number => kept;
