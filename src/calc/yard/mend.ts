import type { Problem } from "../../units/outcome.js";
import type { AcceptancePoint, Stay } from "./night.js";

interface StayWindow {
  readonly place: number;
  readonly arrive: number;
  readonly depart: number;
  readonly repeats: boolean;
}

/** Why a stay cannot be planned at all; null when it can. */
export function stayProblem(stay: Stay, { place, arrive, depart, repeats }: StayWindow): Problem | null {
  const where = `stays.${place}`;
  const figures = { id: stay.id };
  if (repeats) return { code: "stayRepeats", where, figures };
  if (stay.departUtcMs <= stay.arriveUtcMs) return { code: "departsBeforeArrival", where, figures };
  if (depart <= arrive) return { code: "outsideNight", where, figures };
  const kwh = [stay.fullKwh, stay.arriveKwh, stay.needKwh, stay.safeKwh];
  if (!kwh.every((value) => Number.isFinite(value) && value >= 0)) return { code: "badEnergy", where, figures };
  if (stay.arriveKwh > stay.fullKwh) return { code: "fullerThanFull", where: `${where}.arriveKwh`, figures };
  if (!(stay.chargerKw > 0)) return { code: "chargerWithoutPower", where: `${where}.chargerKw`, figures };
  if (!stay.acceptance.every((point) => point.kw > 0))
    return { code: "badAcceptance", where: `${where}.acceptance`, figures };
  return null;
}

/**
 * The acceptance curve as it should be: from level 0 to full and never bending upwards. A curve that does is lowered, never raised,
 * so a plan asks for no more power than was stated.
 */
export function mendedAcceptance(stay: Stay): {
  readonly points: readonly AcceptancePoint[];
  readonly mended: boolean;
} {
  const given = [...stay.acceptance].sort((one, other) => one.levelKwh - other.levelKwh);
  const rising = given.filter((point, k) => k === 0 || point.levelKwh > (given[k - 1] as AcceptancePoint).levelKwh);
  const kwAt = (levelKwh: number): number => kwOn(rising, levelKwh, stay.chargerKw);
  const inside = rising.filter((point) => point.levelKwh > 0 && point.levelKwh < stay.fullKwh);
  const ends: AcceptancePoint[] = [0, ...inside.map((point) => point.levelKwh), Math.max(stay.fullKwh, 1e-3)].map(
    (levelKwh) => ({ levelKwh, kw: kwAt(levelKwh) }),
  );
  const points = concave(ends);
  const same =
    points.length === stay.acceptance.length &&
    points.every((point, k) => {
      const was = stay.acceptance[k] as AcceptancePoint;
      return was.levelKwh === point.levelKwh && Math.abs(was.kw - point.kw) < 1e-9;
    });
  return same ? { points: stay.acceptance, mended: false } : { points, mended: true };
}

function kwOn(points: readonly AcceptancePoint[], levelKwh: number, otherwiseKw: number): number {
  const after = points.findIndex((point) => point.levelKwh >= levelKwh);
  if (after < 0) return points.at(-1)?.kw ?? otherwiseKw;
  const high = points[after] as AcceptancePoint;
  const low = points[after - 1];
  if (!low) return high.kw;
  return low.kw + ((high.kw - low.kw) * (levelKwh - low.levelKwh)) / (high.levelKwh - low.levelKwh);
}

/** Lowers points until no piece rises more steeply than the one before it. */
function concave(points: readonly AcceptancePoint[]): AcceptancePoint[] {
  const kept: AcceptancePoint[] = [];
  for (const point of points) {
    const low = kept.at(-1);
    const lower = kept.at(-2);
    if (!low || !lower) {
      kept.push(point);
      continue;
    }
    const slope = (low.kw - lower.kw) / (low.levelKwh - lower.levelKwh);
    const mostKw = low.kw + slope * (point.levelKwh - low.levelKwh) + 1e-9;
    kept.push({ levelKwh: point.levelKwh, kw: Math.max(1e-3, Math.min(point.kw, mostKw)) });
  }
  return kept;
}
