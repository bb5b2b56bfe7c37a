import { figures } from "../format.js";
import type { StartWords } from "./en.js";

export const ur: StartWords = {
  promise: ["کوئی کھاتہ نہیں۔", "بغیر نیٹ ورک چلتا ہے۔"],
  ways: {
    vehicle: { title: "میری گاڑی", sub: "5 بار چھوئیں، پھر جواب" },
    yard: { title: "یارڈ یا اسٹینڈ", sub: "ساکٹ، چوکیدار، کون کم" },
    kits: { title: "میں کٹ لگاتا ہوں", sub: "گاہک کے لیے چھت اور سیٹ" },
    look: { title: "پہلے دیکھ لیں", sub: "12 گاڑیوں کا نقلی یارڈ" },
  },
  staysHere: "جب تک آپ نہ بانٹیں، سب اسی فون میں ہے۔",
  voice: "آواز",
  languages: "زبان",
  moreLanguages: "اور زبانیں",
  spoken: "نون پلگ۔ کل کے لیے کافی ہے؟ چار میں سے ایک راستہ چنیں۔",

  fiveTaps: "پانچ بار چھوئیں",
  tapsToGo: (left) => `${figures(left)} بار اور`,
  seeTomorrow: "دن دیکھیں",
  looksLike: "کس جیسی دکھتی ہے",
  looks: { passenger: "ٹیکسی", goodsLarge: "لوڈر", eRickshaw: "رکشا", vendingCart: "ٹھیلا" },
  fullCharge: "ایک پورے چارج میں چلتی ہے",
  usualDay: "روز چلتی ہے",
  km: "کلومیٹر",
  panels: "چھت پر پینل",
  none: "نہیں",
  dashShows: "ڈیش دکھاتا ہے",
  dash: { volts: "وولٹ", bars: "ڈنڈی", percent: "%", nothing: "کچھ نہیں" },
  spokenTaps: "پانچ بار چھوئیں: کیسی دکھتی ہے، ایک چارج میں کلومیٹر، روز کے کلومیٹر، پینل، اور ڈیش کیا دکھاتا ہے۔",
  vehicleName: "میری گاڑی",
  yardName: "گھر",
  usualRound: "روز کا دن",
  halfOut: "جانا",
  midday: "دوپہر کا ٹھہراؤ",
  halfBack: "واپسی",
  stallStop: "ٹھیلا",
};
