import type { Round, RoundPart, StopPart } from "../index.js";

/** A break taken now: how long, in what light, on which socket. */
export interface Break {
  readonly minutes: number;
  readonly shade: StopPart["shade"];
  readonly socketKw: number | null;
  readonly name: string;
}

/**
 * The same round with a break `sinceLeaveMin` minutes after leaving, by the planned minutes: a leg is cut there, a longer stop is the break
 * itself for as long as it lasts. Before leaving the break comes first, after coming home last.
 */
export function withBreak(round: Round, sinceLeaveMin: number, taken: Break): Round {
  const stop: StopPart = {
    kind: "stop",
    name: taken.name,
    minutes: taken.minutes,
    shade: taken.shade,
    sideDeg: null,
    payloadChangeKg: 0,
    socketKw: taken.socketKw,
  };
  const parts: RoundPart[] = [];
  let at = 0;
  let put = sinceLeaveMin <= 0;
  if (put) parts.push(stop);
  for (const part of round.parts) {
    const gone = sinceLeaveMin - at;
    at += part.minutes;
    if (put || gone >= part.minutes) parts.push(part);
    else {
      parts.push(...cut(part, gone, stop));
      put = true;
    }
  }
  return { ...round, parts: put ? parts : [...parts, stop] };
}

function cut(part: RoundPart, gone: number, stop: StopPart): RoundPart[] {
  const rest = part.minutes - gone;
  if (part.kind === "stop") {
    const left = Math.max(0, rest - stop.minutes);
    const first = gone > 0 ? [{ ...part, minutes: gone, payloadChangeKg: 0 }] : [];
    // Goods go on or off when the planned stop ends.
    return [
      ...first,
      { ...stop, payloadChangeKg: left > 0 ? 0 : part.payloadChangeKg },
      ...(left > 0 ? [{ ...part, minutes: left }] : []),
    ];
  }
  const share = part.minutes > 0 ? gone / part.minutes : 0;
  const piece = (of: number, minutes: number): RoundPart => ({
    ...part,
    km: part.km * of,
    minutes,
    climbM: part.climbM * of,
    dropM: part.dropM * of,
  });
  return share > 0 ? [piece(share, gone), stop, piece(1 - share, rest)] : [stop, part];
}
