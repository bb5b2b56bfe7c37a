import { MOUNT, type Roof, type RoofMoment, roofByOktaW, roofW } from "../../src/calc/roof/index.js";
import { type Light, lightUnder, type SunInstant, sunInstant } from "../../src/calc/sun/index.js";

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

/** Best of several runs: the machine is shared, and only the shortest time is that of the code. */
function nsPerCall(calls: number, work: (i: number) => number): number {
  let best = Number.POSITIVE_INFINITY;
  for (let run = 0; run < 7; run++) {
    const began = process.hrtime.bigint();
    let sum = 0;
    for (let i = 0; i < calls; i++) sum += work(i);
    best = Math.min(best, Number(process.hrtime.bigint() - began) / calls);
    kept += sum;
  }
  return best;
}

function floorNs(needs: Needs, calls: number): number {
  return nsPerCall(calls, (i) => {
    const x = (i % 1000) / 300 + 0.01;
    let sum = 0;
    for (let n = 0; n < needs.sin; n++) sum += Math.sin(x + n);
    for (let n = 0; n < needs.exp; n++) sum += Math.exp(-x - n);
    for (let n = 0; n < needs.pow; n++) sum += (x + n) ** 1.7;
    return sum;
  });
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

/** Times the way from the sun to the battery bus beside the bare functions it needs, in one run. */
export function run(calls = 100_000): readonly Measured[] {
  const suns = Array.from({ length: 480 }, (_, i) => sunAt(i)).filter((sun): sun is SunInstant => sun !== null);
  const sun = (i: number) => suns[i % suns.length] as SunInstant;
  const at = (list: readonly RoofMoment[], i: number) => list[i % list.length] as RoofMoment;
  const light: { -readonly [K in keyof Light]: Light[K] } = { ghiWm2: 0, dniWm2: 0, dhiWm2: 0 };
  const byOkta = new Float64Array(9);
  const timed = (name: string, needs: Needs, work: (i: number) => number): Measured => {
    const ns = nsPerCall(calls, work);
    const floor = floorNs(needs, calls);
    return { name, nsPerCall: ns, floorNs: floor, ratio: ns / floor };
  };
  const roofNeeds = sumOf(LIGHT, FACE, FACE);
  return [
    timed("sun of an instant", INSTANT, (i) => sunAt(i)?.clearGhiWm2 ?? 0),
    timed("light under cloud, onto two faces, into the battery bus", roofNeeds, (i) =>
      roofW(sun(i), lightUnder(sun(i), i % 9, light), roof, at(moments, i)),
    ),
    timed("the same with the mean over all headings", sumOf(LIGHT, FACE_ANY_HEADING, FACE_ANY_HEADING), (i) =>
      roofW(sun(i), lightUnder(sun(i), i % 9, light), roof, at(anyHeading, i)),
    ),
    timed("from the instant to the battery bus", sumOf(INSTANT, roofNeeds), (i) => {
      const now = sunAt(i);
      return now ? roofW(now, lightUnder(now, i % 9, light), roof, at(moments, i)) : 0;
    }),
    timed("the roof under all nine covers", sumOf(FACE, FACE, ...new Array<Needs>(9).fill(LIGHT)), (i) => {
      roofByOktaW(sun(i), roof, at(moments, i), byOkta);
      return byOkta[3] ?? 0;
    }),
    timed(
      "all nine covers, mean over all headings",
      sumOf(FACE_ANY_HEADING, FACE_ANY_HEADING, ...new Array<Needs>(9).fill(LIGHT)),
      (i) => {
        roofByOktaW(sun(i), roof, at(anyHeading, i), byOkta);
        return byOkta[3] ?? 0;
      },
    ),
  ];
}

/** Of no meaning; keeps the work above alive. */
export const keptSum = (): number => kept;
