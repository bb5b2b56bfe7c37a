import { dayAngle } from "./extraterrestrial.js";

/** How far a sundial is ahead of an even clock. [min] Source: Spencer (1971), with 1440/(2 pi) minutes to the radian. */
export function equationOfTimeMin(dayOfYear: number): number {
  const a = dayAngle(dayOfYear);
  const rad =
    0.0000075 +
    0.001868 * Math.cos(a) -
    0.032077 * Math.sin(a) -
    0.014615 * Math.cos(2 * a) -
    0.040849 * Math.sin(2 * a);
  return (1440 / 2 / Math.PI) * rad;
}
