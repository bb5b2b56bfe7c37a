import type { SkyWord } from "../../calc/sun/index.js";
import type { Sky } from "../index.js";

/** One word for a day's sky: of a day in parts its midday, of hours their mean in oktas (0-2, 3-6, 7-8). */
export function wordOf(sky: Sky | undefined): SkyWord | null {
  const cover = sky?.cover;
  if (!cover) return null;
  if (cover.kind === "three") return cover.value;
  if (cover.kind === "parts") return cover.values[1] ?? null;
  const { oktas, thin } = cover;
  const daylight = oktas.slice(7, 18).map((okta, i) => (thin[i + 7] ? okta / 2 : okta));
  const mean = daylight.reduce((total, okta) => total + okta, 0) / daylight.length;
  return mean < 2.5 ? "bright" : mean < 6.5 ? "mixed" : "dark";
}
