import { expect, test } from "vitest";
import { currencyCodes, currencyPlaces, minorPerMajor } from "../../../src/calc/money/index.js";

// ISO 4217 list one of the maintenance agency, as published in 2025 (all codes with other than two decimals; seen in a public copy).
const OTHER_THAN_TWO = {
  BHD: 3,
  BIF: 0,
  CLF: 4,
  CLP: 0,
  DJF: 0,
  GNF: 0,
  IQD: 3,
  ISK: 0,
  JOD: 3,
  JPY: 0,
  KMF: 0,
  KRW: 0,
  KWD: 3,
  LYD: 3,
  OMR: 3,
  PYG: 0,
  RWF: 0,
  TND: 3,
  UGX: 0,
  UYI: 0,
  UYW: 4,
  VND: 0,
  VUV: 0,
  XAF: 0,
  XOF: 0,
  XPF: 0,
};

test("every currency with other than two decimals is as ISO 4217 lists it, and no more", () => {
  const odd = Object.fromEntries(
    currencyCodes()
      .map((code) => [code, currencyPlaces(code)] as const)
      .filter(([, places]) => places !== 2),
  );
  expect(odd).toEqual(OTHER_THAN_TWO);
});

test("the currencies of the trade have two decimals, also where the coins are gone", () => {
  for (const code of [
    "INR",
    "BDT",
    "NPR",
    "PKR",
    "LKR",
    "KES",
    "TZS",
    "ETB",
    "PHP",
    "BOB",
    "PEN",
    "IDR",
    "ZAR",
    "USD",
    "EUR",
  ])
    expect(minorPerMajor(code), code).toBe(100);
  expect(minorPerMajor("UGX")).toBe(1);
  expect(minorPerMajor("KWD")).toBe(1000);
});

test("a code that is not in use has no decimals, not two", () => {
  expect(currencyPlaces("ZZZ")).toBeNull();
  expect(currencyPlaces("inr")).toBeNull();
  expect(minorPerMajor("DEM")).toBeNull();
});

test("every code is listed once and the runtime's own list knows it, funds codes and the newest codes aside", () => {
  expect(new Set(currencyCodes()).size).toBe(currencyCodes().length);
  const known = new Set(Intl.supportedValuesOf("currency"));
  const funds = ["BOV", "CHE", "CHW", "CLF", "COU", "MXV", "USN", "UYI", "UYW"];
  const newest = ["SLE", "VED", "XCG", "ZWG"];
  expect(currencyCodes().filter((code) => ![...known, ...funds, ...newest].includes(code))).toEqual([]);
});
