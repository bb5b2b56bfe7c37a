/** Decimal places of every currency in use, and of funds codes with a fixed ratio. Source: ISO 4217 list one (maintenance agency copy, 2025). */
const BY_PLACES: readonly (readonly [places: number, codes: string])[] = [
  [0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"],
  [3, "BHD IQD JOD KWD LYD OMR TND"],
  [4, "CLF UYW"],
  [
    2,
    "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG",
  ],
];
const places = new Map(BY_PLACES.flatMap(([count, codes]) => codes.split(" ").map((code) => [code, count] as const)));

/** Decimal places of a currency, null for a code that is not in use. */
export const currencyPlaces = (code: string): number | null => places.get(code) ?? null;

/** How many of the smallest coin make one of the currency; null for a code that is not in use. */
export function minorPerMajor(code: string): number | null {
  const count = currencyPlaces(code);
  return count === null ? null : 10 ** count;
}

/** Every code, in alphabetical order. */
export const currencyCodes = (): readonly string[] => [...places.keys()].sort();
