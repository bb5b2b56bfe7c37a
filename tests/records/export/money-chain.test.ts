import { describe, expect, test } from "vitest";
import {
  canonicalText,
  checkChain,
  type Digest,
  nextLink,
  shortHash,
  type Written,
} from "../../../src/records/export/money-chain.js";
import type { ChainLinkRecord } from "../../../src/records/index.js";
import { readRecord } from "../../../src/records/index.js";

const sha256: Digest = async (text) => {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text)));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
};

describe("the one text of a record", () => {
  test("the example of RFC 8785, section 3.2.2 and 3.2.3", () => {
    const printed: unknown = JSON.parse(
      String.raw`{"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
        "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/", "literals": [null, true, false]}`,
    );
    expect(canonicalText(printed)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });
  test("RFC 8785, section 3.2.3: fields in the order of UTF-16 code units", () => {
    const signs = {
      "\u20ac": "Euro Sign",
      "\r": "Carriage Return",
      "\ufb33": "Hebrew Letter Dalet With Dagesh",
      "1": "One",
      "\ud83d\ude00": "Emoji: Grinning Face",
      "\u0080": "Control",
      "\u00f6": "Latin Small Letter O With Diaeresis",
    };
    const order = [...canonicalText(signs).matchAll(/:"([^"]+)"/g)].map((match) => match[1]);
    expect(order).toEqual([
      "Carriage Return",
      "One",
      "Control",
      "Latin Small Letter O With Diaeresis",
      "Euro Sign",
      "Emoji: Grinning Face",
      "Hebrew Letter Dalet With Dagesh",
    ]);
  });
  test("the order of typing does not count, and what JSON cannot hold is refused", () => {
    expect(canonicalText({ b: 1, a: { d: [2], c: undefined } })).toBe(canonicalText({ a: { d: [2] }, b: 1 }));
    expect(() => canonicalText({ km: Number.NaN })).toThrow(TypeError);
  });
});

test("the digest is SHA-256: FIPS 180-4, example abc", async () => {
  expect(await sha256("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
});

async function chainOf(written: readonly Written[]): Promise<readonly ChainLinkRecord[]> {
  const links: ChainLinkRecord[] = [];
  for (const [i, each] of written.entries())
    links.push(await nextLink("v1", links.at(-1) ?? null, { ...each, writtenUtcMs: 1_800_000_000_000 + i }, sha256));
  return links;
}
const day = (date: string, km: number): Written => ({ record: `entry/v1/${date}`, body: { date, km } });
const three = [day("2027-02-08", 50), day("2027-02-09", 60), day("2027-02-10", 70)];
const codes = async (links: readonly ChainLinkRecord[], records: readonly Written[], heads: readonly string[] = []) => {
  const seen = await checkChain(links, records, sha256, heads);
  return seen.ok ? [] : seen.problems.map(({ code, where }) => `${code} ${where}`);
};

describe("the chain of a vehicle's log", () => {
  test("a log as it was written: nothing changed, and its links are records of their kind", async () => {
    const links = await chainOf(three);
    for (const link of links) expect(readRecord("chainLink", link)).toEqual({ ok: true, value: link });
    expect(await checkChain(links, three, sha256)).toEqual({
      ok: true,
      value: { links: 3, head: links[2]?.hash, untouched: 3, changedLater: [] },
    });
  });
  test("a day put right in the open is shown with the time of its change", async () => {
    const links = await chainOf([...three, day("2027-02-09", 65)]);
    const seen = await checkChain(links, [three[0], day("2027-02-09", 65), three[2]] as Written[], sha256);
    expect(seen.ok && seen.value.changedLater).toEqual([
      { record: "entry/v1/2027-02-09", times: 1, lastUtcMs: 1_800_000_000_003 },
    ]);
    expect(seen.ok && seen.value.untouched).toBe(2);
  });
  test("a record changed behind the chain's back, one never linked, one gone", async () => {
    const links = await chainOf(three);
    const [first, , last] = three as [Written, Written, Written];
    expect(await codes(links, [first, day("2027-02-09", 99), last])).toEqual(["recordChanged entry/v1/2027-02-09"]);
    expect(await codes(links, [...three, day("2027-02-11", 1)])).toEqual(["recordNotLinked entry/v1/2027-02-11"]);
    expect(await codes(links, [first, last])).toEqual(["recordGone entry/v1/2027-02-09"]);
  });
  test("a record removed in the open leaves its link, and is not gone behind the chain's back", async () => {
    const links = await chainOf([...three, { record: "entry/v1/2027-02-09", body: null }]);
    expect(await codes(links, [three[0], three[2]] as Written[])).toEqual([]);
  });
  test("any link changed, taken out, put in or swapped breaks the chain", async () => {
    const links = await chainOf(three);
    const [one, two, last] = links as [ChainLinkRecord, ChainLinkRecord, ChainLinkRecord];
    for (const field of ["writtenUtcMs", "record", "digest", "before", "hash"] as const) {
      const value = field === "writtenUtcMs" ? 1_900_000_000_000 : field === "record" ? "entry/v1/x" : "f".repeat(64);
      const seen = await codes([one, { ...two, [field]: value }, last], three);
      expect(
        seen.some((problem) => problem.startsWith("chainBroken")),
        field,
      ).toBe(true);
    }
    expect(await codes([one, last], [three[0], three[2]] as Written[])).toContain("chainBroken links.3");
    expect(await codes([two, last], three)).toContain("chainBroken links.2");
  });
  test("a chain written anew from the start is caught by a head that was given away before", async () => {
    const honest = await chainOf(three);
    const head = honest[1]?.hash as string;
    const forged = [day("2027-02-08", 90), ...three.slice(1)];
    const links = await chainOf(forged);
    expect(await codes(links, forged)).toEqual([]);
    expect(await codes(links, forged, [head])).toEqual(["headMissing links"]);
    expect(await codes(honest, three, [head])).toEqual([]);
  });
  test("an empty chain is whole", async () => expect(await codes([], [])).toEqual([]));
});

test("the short form of a hash can be read out", () => {
  expect(shortHash("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")).toBe("ba78 16bf 8f01 cfea");
});
