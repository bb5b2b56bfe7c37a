const WHOLE_BELOW_KM = 40;
const COARSE_KM = 5;

/** km that are left, rounded down: whole below 40, by 5 above; never below 0. */
export function kmLeft(km: number): number {
  const step = km < WHOLE_BELOW_KM ? 1 : COARSE_KM;
  return Math.max(0, Math.floor(km / step + 1e-9) * step);
}

/** km that are missing, rounded up: whole below 40, by 5 above; at least 1. */
export function kmMissing(km: number): number {
  const step = km <= WHOLE_BELOW_KM ? 1 : COARSE_KM;
  return Math.max(1, Math.ceil(km / step - 1e-9) * step);
}

const STEP_H = 1 / 6;
/** Hours to ten minutes: for a plan that must not be late, back; for one that must not end early, on. */
export const tenMinutes = (hour: number, towards: "back" | "near" | "on" = "near"): number => {
  const steps = hour / STEP_H;
  const whole =
    towards === "back" ? Math.floor(steps + 1e-6) : towards === "on" ? Math.ceil(steps - 1e-6) : Math.round(steps);
  return whole * STEP_H;
};
