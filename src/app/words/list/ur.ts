import { figures, n, sn } from "../format.js";
import type { ListWords } from "./en.js";

export const ur: ListWords = {
  tomorrow: (count) => `${figures(count)} گاڑیاں`,
  tally: { short: "کم", tight: "مشکل", notKnown: "پتا نہیں", enough: "کافی", off: "سڑک پر نہیں" },
  shortKm: (km) => `${n(km)} کلومیٹر کم`,
  tight: (up, down) => `${sn(up)} یا ${sn(-down)} کلومیٹر`,
  enoughKm: (km) => `${sn(km)} کلومیٹر`,
  readGauge: "میٹر دیکھیں",
  giveRound: "چکر دیں",
  working: "حساب ہو رہا ہے",
  find: "نمبر ڈھونڈیں",
  noneFound: "اس نمبر کی کوئی گاڑی نہیں۔",
  slate: "سلیٹ لکھیں",
  log: "اندازہ اور اصل",
  newVehicle: "نئی گاڑی",
  rounds: "چکر",
  phone: "یہ فون",
  empty: "ابھی کوئی گاڑی نہیں۔ پانچ بار چھوئیں۔",
  five: "پانچ بار چھوئیں",
  spoken: (short, tight, unknown, enough) =>
    `${figures(short)} کم، ${figures(tight)} مشکل سے، ${figures(unknown)} پتا نہیں، ${figures(enough)} کافی۔`,
};
