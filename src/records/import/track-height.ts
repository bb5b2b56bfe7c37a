/** Heights within this many metres along the track are averaged: a receiver's own wander is shorter than a hill. */
const SMOOTH_M = 80;
/** A turn from up to down counts only once the height has gone this far back; smaller ones are noise. [m] */
const TURN_M = 4;

/**
 * Heights of a track with the receiver's noise taken out: every rise and fall that is left counts. Null when fewer than two
 * points have a height. Median of five, then the mean over 80 m, then a turning threshold of 4 m (hysteresis): the sums of what rises
 * and of what falls neither grow with the number of points nor lose a long even slope. Common practice, no source for the two figures.
 */
export function quietHeights(alongM: Float64Array, heightM: Float64Array): Float64Array | null {
  const filled = filledGaps(alongM, heightM);
  return filled && withoutSmallTurns(meanOver(alongM, medianOfFive(filled)));
}

/** Missing heights from their neighbours, straight along the track. */
function filledGaps(alongM: Float64Array, heightM: Float64Array): Float64Array | null {
  const known: number[] = [];
  heightM.forEach((height, i) => {
    if (!Number.isNaN(height)) known.push(i);
  });
  if (known.length < 2) return null;
  const filled = new Float64Array(heightM.length);
  let k = 0;
  for (let i = 0; i < heightM.length; i++) {
    while (k < known.length - 2 && i >= (known[k + 1] as number)) k++;
    const from = known[k] as number;
    const to = known[k + 1] as number;
    const span = (alongM[to] as number) - (alongM[from] as number);
    const share = span > 0 ? Math.min(1, Math.max(0, ((alongM[i] as number) - (alongM[from] as number)) / span)) : 0;
    filled[i] = (heightM[from] as number) * (1 - share) + (heightM[to] as number) * share;
  }
  return filled;
}

function medianOfFive(values: Float64Array): Float64Array {
  const window = new Float64Array(5);
  const last = values.length - 1;
  return values.map((_, i) => {
    for (let k = 0; k < 5; k++) window[k] = values[Math.min(last, Math.max(0, i + k - 2))] as number;
    return window.sort()[2] as number;
  });
}

/** Mean height along the track over SMOOTH_M around each point, narrower near the ends so that both ends keep their height. */
function meanOver(alongM: Float64Array, heightM: Float64Array): Float64Array {
  const area = new Float64Array(heightM.length); // under the height, from the start
  for (let i = 1; i < area.length; i++)
    area[i] = (area[i - 1] as number) + (((heightM[i] as number) + (heightM[i - 1] as number)) / 2) * stepM(alongM, i);
  const lastM = alongM[alongM.length - 1] as number;
  const at = walkingValue(alongM, area, heightM);
  const atEnd = walkingValue(alongM, area, heightM);
  return heightM.map((height, i) => {
    const here = alongM[i] as number;
    const half = Math.min(SMOOTH_M / 2, here, lastM - here);
    return half > 1 ? (atEnd(here + half) - at(here - half)) / (2 * half) : height;
  });
}

const stepM = (alongM: Float64Array, i: number): number => (alongM[i] as number) - (alongM[i - 1] as number);

/** Area under the height up to a distance; asked for rising distances it walks along once. */
function walkingValue(alongM: Float64Array, area: Float64Array, heightM: Float64Array): (atM: number) => number {
  let i = 1;
  return (atM) => {
    while (i < alongM.length - 1 && (alongM[i] as number) < atM) i++;
    while (i > 1 && (alongM[i - 1] as number) > atM) i--;
    const from = alongM[i - 1] as number;
    const step = stepM(alongM, i);
    const share = step > 0 ? (atM - from) / step : 0;
    const low = heightM[i - 1] as number;
    const height = low + ((heightM[i] as number) - low) * share;
    return (area[i - 1] as number) + ((low + height) / 2) * (atM - from);
  };
}

/** Between two turns that count, the height only rises or only falls: it is held where it would go back. */
function withoutSmallTurns(heightM: Float64Array): Float64Array {
  const turns = turningPoints(heightM);
  const quiet = heightM.slice();
  for (let k = 1; k < turns.length; k++) {
    const from = turns[k - 1] as number;
    const to = turns[k] as number;
    const up = (heightM[to] as number) >= (heightM[from] as number);
    const limit = up ? Math.max : Math.min;
    for (let i = from + 1; i <= to; i++) quiet[i] = limit(quiet[i - 1] as number, quiet[i] as number);
  }
  return quiet;
}

/** Places of the highs and lows that lie at least TURN_M apart, with both ends. */
function turningPoints(heightM: Float64Array): number[] {
  const turns = [0];
  let high = 0;
  let low = 0;
  let way = 0; // +1 rising, -1 falling, 0 not known yet
  for (let i = 1; i < heightM.length; i++) {
    const height = heightM[i] as number;
    if (height > (heightM[high] as number)) high = i;
    if (height < (heightM[low] as number)) low = i;
    if (way >= 0 && (heightM[high] as number) - height >= TURN_M) {
      if (high > 0) turns.push(high);
      way = -1;
      low = i;
      high = i;
    } else if (way <= 0 && height - (heightM[low] as number) >= TURN_M) {
      if (low > 0) turns.push(low);
      way = 1;
      high = i;
      low = i;
    }
  }
  const last = way > 0 ? high : way < 0 ? low : heightM.length - 1;
  if (last > (turns[turns.length - 1] as number)) turns.push(last);
  if (heightM.length - 1 > (turns[turns.length - 1] as number)) turns.push(heightM.length - 1);
  return turns;
}
