import { figures, plural } from "../format.js";
import type { StartWords } from "./en.js";

export const es: StartWords = {
  promise: ["Sin cuenta. Funciona", "sin red."],
  ways: {
    vehicle: { title: "Mi vehículo", sub: "5 toques y la respuesta" },
    yard: { title: "Un patio o una parada", sub: "tomas, guardia, a quién le falta" },
    kits: { title: "Instalo kits", sub: "techo y juego para un cliente" },
    look: { title: "Primero mirar", sub: "un patio de 12 que no es real" },
  },
  staysHere: "Todo queda en este teléfono hasta que lo compartas.",
  voice: "Voz",
  languages: "Idioma",
  moreLanguages: "Más idiomas",
  spoken: "Noonplug. ¿Alcanza para mañana? Elige una de cuatro entradas.",

  fiveTaps: "cinco toques",
  tapsToGo: (left) => `${plural(left, { one: "falta", other: "faltan" })} ${figures(left)}`,
  seeTomorrow: "Ver el día",
  looksLike: "Se parece más a",
  looks: { passenger: "taxi", goodsLarge: "furgón", eRickshaw: "bicitaxi", vendingCart: "puesto" },
  fullCharge: "Con una carga completa hace",
  usualDay: "Un día de siempre hace",
  km: "km",
  panels: "Paneles en el techo",
  none: "ninguno",
  dashShows: "El tablero muestra",
  dash: { volts: "voltios", bars: "rayas", percent: "%", nothing: "nada" },
  spokenTaps: "Cinco toques: a qué se parece, km por carga, km al día, paneles, y qué muestra el tablero.",
  vehicleName: "Mi vehículo",
  yardName: "Casa",
  usualRound: "Día de siempre",
  halfOut: "Ida",
  midday: "Parada del mediodía",
  halfBack: "Vuelta",
  stallStop: "Puesto",
};
