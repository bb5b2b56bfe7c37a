import { figures, n, plural, sn } from "../format.js";
import type { ListWords } from "./en.js";

export const es: ListWords = {
  tomorrow: (count) => `${figures(count)} ${plural(count, { one: "vehículo", other: "vehículos" })}`,
  tally: { short: "no alcanza", tight: "justo", notKnown: "no se sabe", enough: "alcanza", off: "fuera" },
  shortKm: (km) => `Faltan ${n(km)} km`,
  tight: (up, down) => `${sn(up)} o ${sn(-down)} km`,
  enoughKm: (km) => `${sn(km)} km`,
  readGauge: "lee su medidor",
  giveRound: "dale una ruta",
  working: "haciendo la cuenta",
  find: "Buscar un número",
  noneFound: "Ningún vehículo tiene este número.",
  slate: "Escribir la pizarra",
  log: "Vivido y previsto",
  newVehicle: "Vehículo nuevo",
  rounds: "Rutas",
  phone: "Este teléfono",
  empty: "Ningún vehículo todavía. Cinco toques.",
  five: "Cinco toques",
  spoken: (short, tight, unknown, enough) =>
    `${figures(short)} no alcanzan, ${figures(tight)} justos, ${figures(unknown)} no se sabe, ${figures(enough)} alcanzan.`,
};
