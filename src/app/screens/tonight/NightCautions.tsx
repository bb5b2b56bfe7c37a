import { continuousLimitA } from "../../../calc/yard/circuit.js";
import { GAS_MA_PER_AH, type GassingSet, ventilation } from "../../../calc/yard/gas.js";
import type { Socket, Vehicle, Yard } from "../../../records/index.js";
import type { NightShown } from "../../../work/night-calls.js";
import { Caution } from "../../parts/Caution.js";
import { tonightWords } from "../../words/tonight.js";

interface Of {
  readonly yard: Yard;
  readonly shown: NightShown;
  readonly sockets: readonly Socket[];
  readonly vehicles: readonly Vehicle[];
}
const CELL_V = 2;
const CELLS_OF_BLOCK = 6;

/** Lead-acid sets that take power in the same slot, at the slot of most air. */
export function gassingTogether({ shown, vehicles }: Pick<Of, "shown" | "vehicles">): {
  readonly sets: readonly Vehicle[];
  readonly airflowM3H: number;
  readonly openingCm2: number;
} {
  const vehicleIds = new Map(shown.layout.about.map((one) => [one.stayId, one.vehicleId]));
  const byId = new Map(vehicles.map((vehicle) => [vehicle.id, vehicle]));
  const lead = shown.plan.sessions.flatMap((session) => {
    const vehicle = byId.get(vehicleIds.get(session.stay) ?? "");
    return vehicle && vehicle.battery.chemistry !== "lfp" ? [{ session, vehicle }] : [];
  });
  let most = { sets: [] as readonly Vehicle[], airflowM3H: 0, openingCm2: 0 };
  for (const startUtcMs of new Set(lead.map(({ session }) => session.startUtcMs))) {
    const sets = lead
      .filter(({ session }) => session.startUtcMs <= startUtcMs && session.stopUtcMs > startUtcMs)
      .map(({ vehicle }) => vehicle);
    const air = ventilation(sets.map(gassingOf));
    if (air.airflowM3H > most.airflowM3H) most = { sets, airflowM3H: air.airflowM3H, openingCm2: air.openingCm2 };
  }
  return most;
}

const gassingOf = ({ battery }: Vehicle): GassingSet => ({
  cellsInSeries: Math.round(battery.nominalV / CELL_V),
  gasCurrentMaPerAh: battery.chemistry === "sealedLead" ? GAS_MA_PER_AH.sealedLead : GAS_MA_PER_AH.floodedLead,
  ratedAh: battery.ratedAh,
  strings: 1,
});

/** Cautions at the point of risk, with this yard's own figures. */
export function NightCautions(of: Of) {
  const words = tonightWords.now().cautions;
  const gas = gassingTogether(of);
  const blocks = gas.sets.reduce((sum, { battery }) => sum + Math.round(battery.nominalV / CELL_V / CELLS_OF_BLOCK), 0);
  const breakers = [...new Set(of.sockets.flatMap(({ breakerA }) => (breakerA === undefined ? [] : [breakerA])))];
  const breakerA = breakers.length > 0 ? Math.min(...breakers) : null;
  const cold = of.shown.layout.about.some(
    ({ cannotCharge, stayId }) =>
      cannotCharge && of.shown.layout.night.stays.some((stay) => stay.id === stayId && stay.chemistry === "lfp"),
  );
  return (
    <>
      {gas.sets.length > 0 && (
        <Caution
          text={words.gas(gas.sets.length, blocks, Math.ceil(gas.airflowM3H), Math.ceil(gas.openingCm2 / 10) * 10)}
        />
      )}
      {breakerA !== null && <Caution text={words.breaker(Math.floor(continuousLimitA(breakerA)), breakerA)} />}
      {cold && <Caution text={words.cold} />}
    </>
  );
}
