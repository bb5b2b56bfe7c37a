// A second way to the optimum, apart from the planner: every session of the grid becomes a column of an integer program, and HiGHS
// solves the aims one after the other. Nothing of the planner is used: the energy rule is solved by halving, prices come from Intl.
import type { Highs } from "highs";
import type { Night, Socket, Stay } from "../../../src/calc/yard/night.js";

const TINY = 1e-6;
const cents = (value: number): number => Math.floor(value * 100 + 0.5 + TINY);

export interface Column {
  readonly stay: number;
  readonly place: string;
  readonly plug: number;
  readonly unplug: number;
  readonly start: number;
  /** short, weight, missing (hundredths), changes, full missed, money (hundredths), swaps, ready slots */
  readonly aims: readonly number[];
  readonly kwh: readonly number[];
  readonly wakes: readonly number[];
}

interface Grid {
  readonly night: Night;
  readonly hours: number;
  readonly slots: number;
  readonly cut: readonly boolean[];
  readonly price: readonly number[];
  readonly at: (utcMs: number) => number;
  readonly awake: (boundary: number) => boolean;
  readonly wakeable: (boundary: number) => boolean;
  readonly now: number;
}

/** The eight aims of the best plan (kWh and money in hundredths), or null when HiGHS does not finish. */
export function optimum(
  night: Night,
  highs: Highs,
  options: { readonly seconds?: number; readonly lean?: boolean; readonly chosen?: Column[] } = {},
): number[] | null {
  const grid = gridOf(night);
  const columns = night.stays.flatMap((stay, index) => columnsOf(grid, stay, index, options.lean === true));
  const rows = constraints(grid, columns);
  const best: number[] = [];
  const held: string[] = [];
  for (let aim = 0; aim < 8; aim++) {
    const goal = objective(grid, columns, aim);
    const program = `Minimize\n obj: ${goal || "0 nothing"}\nSubject To\n${[...rows, ...held].join("\n")}\nBounds\n 0 <= nothing <= 0\n${bounds(grid)}\nBinaries\n${binaries(grid, columns)}\nEnd\n`;
    const answer = highs.solve(program, {
      mip_rel_gap: 0,
      mip_abs_gap: 0.2,
      ...(options.seconds ? { time_limit: options.seconds } : {}),
    });
    if (answer.Status !== "Optimal") return null;
    if (aim === 7)
      options.chosen?.push(
        ...columns.filter((_, j) => ((answer.Columns[`x${j}`] as { Primal: number } | undefined)?.Primal ?? 0) > 0.5),
      );
    const demand = aim === 5 ? (night.tariff.demandPerKw ?? 0) * 100 * floorKw(grid) : 0;
    const value = answer.ObjectiveValue - demand;
    const whole = aim === 5 && (night.tariff.demandPerKw ?? 0) > 0 ? value : Math.round(value);
    best.push(whole);
    if (goal) held.push(` held${aim}: ${goal} <= ${whole + demand + 0.3}`);
  }
  return best;
}

function gridOf(night: Night): Grid {
  const stepMs = night.slotMinutes * 60_000;
  const at = (utcMs: number): number => (utcMs - night.startUtcMs) / stepMs;
  const utc = (boundary: number): number => night.startUtcMs + boundary * stepMs;
  const awake = (b: number): boolean =>
    night.staff.awake.some((span) => utc(b) >= span.fromUtcMs && utc(b) <= span.toUtcMs);
  return {
    night,
    hours: night.slotMinutes / 60,
    slots: night.slotCount,
    cut: Array.from({ length: night.slotCount }, (_, t) =>
      night.site.cuts.some((c) => t >= at(c.fromUtcMs) && t < at(c.toUtcMs)),
    ),
    price: pricesOf(night, stepMs),
    at,
    awake,
    wakeable: (b) => !awake(b) && night.staff.wakeUtcMs.includes(utc(b)),
    now: night.published ? at(night.published.nowUtcMs) : 0,
  };
}

function pricesOf(night: Night, stepMs: number): number[] {
  const { tariff } = night;
  if (tariff.kind !== "bands") return new Array(night.slotCount).fill(0);
  const clock = new Intl.DateTimeFormat("en-US", {
    timeZone: night.zone,
    hour: "numeric",
    minute: "numeric",
    hourCycle: "h23",
  });
  const minutes = (text: string): number => Number(text.slice(0, 2)) * 60 + Number(text.slice(3, 5));
  return Array.from({ length: night.slotCount }, (_, t) => {
    const parts = clock.formatToParts(night.startUtcMs + t * stepMs);
    const part = (kind: string): number => Number(parts.find((one) => one.type === kind)?.value);
    const now = part("hour") * 60 + part("minute");
    const inside = (from: number, to: number): boolean =>
      from < to ? now >= from && now < to : now >= from || now < to;
    return tariff.bands.find((band) => inside(minutes(band.from), minutes(band.to)))?.perKwh ?? tariff.otherwisePerKwh;
  });
}

function drawn(stay: Stay, levelKwh: number, kw: number, hours: number): number {
  const accepted = (level: number): number => {
    const k = Math.max(
      1,
      stay.acceptance.findIndex((point) => level <= point.levelKwh),
    );
    const low = stay.acceptance[k - 1] as { levelKwh: number; kw: number };
    const high = stay.acceptance[k] as { levelKwh: number; kw: number };
    return low.kw + ((high.kw - low.kw) * (level - low.levelKwh)) / (high.levelKwh - low.levelKwh);
  };
  let low = 0;
  let high = Math.max(0, Math.min(kw * hours, stay.fullKwh - levelKwh));
  if (high <= hours * accepted(levelKwh + high / 2)) return high;
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (middle <= hours * accepted(levelKwh + middle / 2)) low = middle;
    else high = middle;
  }
  return low;
}

/** Levels at every boundary from arrival, and kWh from the grid, for a charge from `start` to `stop`. */
function follow(grid: Grid, stay: Stay, kw: number, start: number, stop: number): { levels: number[]; kwh: number[] } {
  let level = stay.arriveKwh;
  const levels = [level];
  const kwh: number[] = [];
  for (let t = grid.at(stay.arriveUtcMs); t < grid.at(stay.departUtcMs); t++) {
    level = Math.min(stay.fullKwh, level + (stay.roofKw ?? 0) * (grid.night.sunKwPerKw?.[t] ?? 0) * grid.hours);
    const fromGrid = t >= start && t < stop && !grid.cut[t] ? drawn(stay, level, kw, grid.hours) : 0;
    if (t >= start && t < stop) kwh.push(fromGrid);
    level += fromGrid;
    if (stay.fullKwh - level < TINY) level = stay.fullKwh;
    levels.push(level);
  }
  return { levels, kwh };
}

function aimsOf(
  grid: Grid,
  stay: Stay,
  run: { levels: number[]; kwh: number[]; start: number },
  swap: number,
  change: number,
): number[] {
  const target = stay.arriveKwh + stay.needKwh + stay.safeKwh;
  const end = run.levels.at(-1) as number;
  const short = end < target - TINY ? 1 : 0;
  const energy = run.kwh.reduce((sum, kwh, k) => sum + kwh * (grid.price[run.start + k] as number), 0);
  const fee = grid.night.tariff.kind === "flatFee" && run.kwh.length > 0 ? grid.night.tariff.feePerCharge : 0;
  const ready = run.levels.findIndex((level) => level >= target - TINY);
  return [
    short,
    short * (stay.roundWeight ?? 1),
    short ? cents(target - end) : 0,
    change,
    stay.fullDue && end < stay.fullKwh - TINY ? 1 : 0,
    cents(energy + fee),
    swap,
    ready < 0 ? run.levels.length - 1 : ready,
  ];
}

function columnsOf(grid: Grid, stay: Stay, index: number, lean: boolean): Column[] {
  const { night } = grid;
  const old = night.published?.sessions.find((session) => session.stay === stay.id);
  const arrive = grid.at(stay.arriveUtcMs);
  const begun = old !== undefined && grid.at(old.plugUtcMs) < grid.now;
  const idle = follow(grid, stay, 0, arrive, arrive);
  const none = { stay: index, place: "", plug: arrive, unplug: arrive, start: arrive, kwh: [], wakes: [] };
  const columns: Column[] = begun
    ? []
    : [{ ...none, aims: aimsOf(grid, stay, { ...idle, start: arrive }, 0, old ? 1 : 0) }];
  const seen = new Set<string>();
  for (const socket of night.sockets) {
    const place = night.published ? socket.id : `${socket.limitKw}/${socket.plug}/${socket.timer}`;
    if (!stay.plugs.includes(socket.plug) || seen.has(place)) continue;
    seen.add(place);
    for (const column of onSocket(grid, stay, index, socket, lean)) columns.push({ ...column, place });
  }
  return columns;
}

function* onSocket(grid: Grid, stay: Stay, index: number, socket: Socket, lean: boolean): Generator<Column> {
  const arrive = grid.at(stay.arriveUtcMs);
  const depart = grid.at(stay.departUtcMs);
  const old = grid.night.published?.sessions.find((session) => session.stay === stay.id);
  const was = old && [old.plugUtcMs, old.startUtcMs, old.stopUtcMs, old.unplugUtcMs].map(grid.at);
  const begun = was !== undefined && (was[0] as number) < grid.now;
  if (begun && old?.socket !== socket.id) return;
  const open = (k: number, b: number): boolean =>
    begun && (was[k] as number) < grid.now ? b === was[k] : b >= grid.now;
  const kw = Math.min(stay.chargerKw, socket.limitKw);
  const handy = (b: number, own: number): boolean => b === own || grid.awake(b) || grid.wakeable(b);
  const plugs = range(arrive, depart).filter((b) => open(0, b) && (begun || handy(b, arrive)));
  const unplugs = range(arrive + 1, depart + 1).filter((b) => open(3, b) && (b === was?.[3] || handy(b, depart)));
  for (const start of range(arrive, depart)) {
    if (!open(1, start)) continue;
    const whole = follow(grid, stay, kw, start, depart);
    for (const stop of range(start + 1, depart + 1)) {
      if (!open(2, stop)) continue;
      const kwh = whole.kwh.slice(0, stop - start);
      const levels = grid.night.sunKwPerKw
        ? follow(grid, stay, kw, start, stop).levels
        : whole.levels.map((level, k) => (k <= stop - arrive ? level : (whole.levels[stop - arrive] as number)));
      const full = (levels[stop - arrive] as number) >= stay.fullKwh - TINY;
      const fitting = plugs.filter((plug) => plug <= start && (socket.timer || plug === start));
      for (const plug of lean ? leanPlugs(grid, fitting, arrive, was?.[0]) : fitting)
        for (const unplug of leanUnplugs(grid, unplugs, stop, lean, was?.[3])) {
          if (!socket.timer && unplug !== stop && !full) continue;
          const change =
            old && (old.socket !== socket.id || plug !== was?.[0] || start !== was?.[1] || unplug !== was?.[3]) ? 1 : 0;
          const aims = aimsOf(grid, stay, { levels, kwh, start }, plug === arrive ? 0 : 1, change);
          if (lean && kwh.at(-1) === 0 && stop !== unplug) continue;
          const wakes = [
            plug !== arrive && grid.wakeable(plug) ? plug : -1,
            unplug !== depart && grid.wakeable(unplug) ? unplug : -1,
          ].filter((b) => b >= 0);
          yield { stay: index, place: "", plug, unplug, start, aims, kwh, wakes };
        }
    }
  }
}

const range = (from: number, to: number): number[] =>
  Array.from({ length: Math.max(0, to - from) }, (_, k) => from + k);

/** For longer nights: only the arrival, the last moment somebody is awake, the promised one and every waking. */
function leanPlugs(grid: Grid, plugs: readonly number[], arrive: number, promised?: number): number[] {
  const awake = plugs.filter((b) => grid.awake(b));
  return plugs.filter((b) => b === arrive || b === awake.at(-1) || b === promised || grid.wakeable(b));
}

function leanUnplugs(grid: Grid, unplugs: readonly number[], stop: number, lean: boolean, promised?: number): number[] {
  const after = unplugs.filter((b) => b >= stop);
  if (!lean) return after;
  const first = after.find((b) => !grid.wakeable(b));
  return after.filter((b) => b === first || b === promised || (grid.wakeable(b) && b < (first ?? 0)));
}

const floorKw = (grid: Grid): number =>
  range(0, grid.slots).reduce(
    (most, t) => (grid.cut[t] ? most : Math.max(most, grid.night.site.baseLoadKw[t] as number)),
    grid.night.tariff.billedPeakKw ?? 0,
  );

const term = (factor: number, name: string): string => `${factor < 0 ? "-" : "+"} ${Math.abs(factor)} ${name}`;
const sumOf = (terms: readonly string[]): string => terms.join(" ");
const wakeBoundaries = (grid: Grid): number[] => range(0, grid.slots + 1).filter(grid.wakeable);

function objective(grid: Grid, columns: readonly Column[], aim: number): string {
  const terms = columns.flatMap((column, j) => (column.aims[aim] ? [term(column.aims[aim] as number, `x${j}`)] : []));
  if (aim === 6) terms.push(...wakeBoundaries(grid).map((b) => term(grid.night.staff.wakeWeightSwaps, `y${b}`)));
  const demand = grid.night.tariff.demandPerKw ?? 0;
  if (aim === 5 && demand > 0) terms.push(term(demand * 100, "peak"));
  return sumOf(terms);
}

function constraints(grid: Grid, columns: readonly Column[]): string[] {
  const { night } = grid;
  const rows: string[] = [];
  const byStay = night.stays.map(() => [] as string[]);
  const power = range(0, grid.slots).map(() => [] as string[]);
  const sockets = new Map<string, string[][]>();
  const wakes = new Map<string, string[]>();
  for (const [j, column] of columns.entries()) {
    byStay[column.stay]?.push(term(1, `x${j}`));
    for (const [k, kwh] of column.kwh.entries())
      if (kwh > 0) power[column.start + k]?.push(term(kwh / grid.hours, `x${j}`));
    if (!sockets.has(column.place))
      sockets.set(
        column.place,
        range(0, grid.slots).map(() => []),
      );
    for (let t = column.plug; t < column.unplug; t++) sockets.get(column.place)?.[t]?.push(term(1, `x${j}`));
    for (const b of column.wakes) {
      const key = `y${b}/${column.stay}`;
      wakes.set(key, [...(wakes.get(key) ?? []), term(1, `x${j}`)]);
    }
  }
  for (const [v, terms] of byStay.entries()) rows.push(` stay${v}: ${sumOf(terms)} = 1`);
  for (const [t, terms] of power.entries()) {
    if (terms.length === 0) continue;
    const usable = grid.cut[t]
      ? 0
      : Math.max(0, night.site.limitKw - night.site.marginKw - (night.site.baseLoadKw[t] as number));
    if (t >= grid.now) rows.push(` power${t}: ${sumOf(terms)} <= ${usable + 5e-7}`);
    if (night.tariff.demandPerKw && !grid.cut[t])
      rows.push(` peak${t}: ${sumOf(terms)} - peak <= ${-(night.site.baseLoadKw[t] as number)}`);
  }
  let place = 0;
  for (const [key, slots] of sockets) {
    place++;
    if (!key) continue;
    const count = night.published
      ? 1
      : night.sockets.filter((one) => `${one.limitKw}/${one.plug}/${one.timer}` === key).length;
    for (const [t, terms] of slots.entries())
      if (terms.length > count) rows.push(` socket${place}t${t}: ${sumOf(terms)} <= ${count}`);
  }
  let wake = 0;
  for (const [key, terms] of wakes) rows.push(` wake${wake++}: ${sumOf(terms)} - ${key.split("/")[0]} <= 0`);
  return rows;
}

const bounds = (grid: Grid): string => (grid.night.tariff.demandPerKw ? ` peak >= ${floorKw(grid)}` : "");
const binaries = (grid: Grid, columns: readonly Column[]): string =>
  [...columns.map((_, j) => `x${j}`), ...wakeBoundaries(grid).map((b) => `y${b}`)].join("\n");
