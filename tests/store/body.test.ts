import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Body,
  bodyOf,
  deletedBody,
  indexed,
  isBody,
  isDeleted,
  mergedBody,
  recordOf,
  sameValue,
} from "../../src/store/body.js";
import { nextStamp } from "../../src/store/clock.js";
import { examples } from "../records/examples.js";

const stamp = (n: number, device = "a"): string => nextStamp(null, 1_800_000_000_000 + n, device);

/** Copies of one record as five phones might hold them: stamps are unique to a field and value. */
const anyCopy = (): fc.Arbitrary<Body> => {
  const written = fc.record({
    field: fc.constantFrom("km", "trips", "driver", "wet"),
    n: fc.nat(40),
    gone: fc.boolean(),
  });
  return fc
    .record({
      fields: fc.array(written, { maxLength: 6 }),
      d: fc.option(fc.nat(40), { nil: undefined }),
      first: fc.nat(5),
    })
    .map(({ fields, d, first }) => {
      const f: Record<string, unknown> = { vehicleId: "v1", date: "2027-02-10" };
      const x: Record<string, string> = { vehicleId: stamp(0, "v"), date: stamp(0, "v") };
      for (const { field, n, gone } of fields) {
        // value and absence follow from the stamp, as on real phones: one stamp is given out once
        const removed = gone && n % 3 === 0;
        x[field] = stamp(n, removed ? `${field}-` : field);
        if (removed) delete f[field];
        else f[field] = n;
      }
      const body = { key: "entry/e", k: "entry", f, t: stamp(first, "t"), x };
      return indexed(d === undefined ? body : { ...body, d: stamp(d, "d") });
    });
};
const canonical = (body: Body): unknown =>
  JSON.parse(JSON.stringify({ ...body, x: Object.entries(body.x ?? {}).sort(), f: Object.entries(body.f).sort() }));

describe("merging copies", () => {
  test("has one end in any order, any number of times", () => {
    fc.assert(
      fc.property(
        fc.array(anyCopy(), { minLength: 2, maxLength: 5 }),
        fc.infiniteStream(fc.nat(4)),
        (copies, order) => {
          const [first, ...rest] = copies;
          if (!first) return;
          const forward = rest.reduce(mergedBody, first);
          const backward = [...copies].reverse().reduce(mergedBody);
          let shuffled = first;
          for (const n of order) {
            shuffled = mergedBody(copies[n % copies.length] ?? first, shuffled);
            if (n === 4) break;
          }
          expect(canonical(backward)).toEqual(canonical(forward));
          expect(canonical(mergedBody(forward, shuffled))).toEqual(canonical(forward));
          expect(canonical(mergedBody(forward, forward))).toEqual(canonical(forward));
        },
      ),
      { numRuns: 1000 },
    );
  });

  test("two phones that edit different fields both keep theirs; of one field the later write stands", () => {
    const made = bodyOf("entry", examples.entry, stamp(1), undefined);
    const here = bodyOf("entry", { ...examples.entry, km: 50, trips: 7 }, stamp(5, "here"), made);
    const there = bodyOf("entry", { ...examples.entry, km: 52, wet: true }, stamp(6, "there"), made);
    expect(recordOf("entry", mergedBody(here, there))).toEqual({
      ok: true,
      value: { ...examples.entry, km: 52, trips: 7, wet: true },
    });
  });

  test("a deletion beats what was written before it and yields to what was written after", () => {
    const made = bodyOf("entry", examples.entry, stamp(1), undefined);
    const gone = deletedBody(made, stamp(5));
    const before = bodyOf("entry", { ...examples.entry, km: 50 }, stamp(4), made);
    const after = bodyOf("entry", { ...examples.entry, km: 50 }, stamp(6), made);
    expect(isDeleted(mergedBody(gone, before))).toBe(true);
    expect(isDeleted(mergedBody(after, gone))).toBe(false);
    expect(recordOf("entry", mergedBody(after, gone))).toEqual({ ok: true, value: { ...examples.entry, km: 50 } });
  });

  test("a field taken away stays away against an older copy that has it", () => {
    const made = bodyOf("socket", examples.socket, stamp(1), undefined);
    const { breakerA: _gone, ...without } = examples.socket;
    const changed = bodyOf("socket", without, stamp(3), made);
    expect(recordOf("socket", mergedBody(made, changed))).toEqual({ ok: true, value: without });
    const again = bodyOf("socket", examples.socket, stamp(4), changed);
    expect(recordOf("socket", mergedBody(changed, again))).toEqual({ ok: true, value: examples.socket });
  });
});

describe("a body", () => {
  test("stamps only the fields that changed, whatever the order of their parts", () => {
    const made = bodyOf("vehicle", examples.vehicle, stamp(1), undefined);
    const { battery } = examples.vehicle;
    const turned = Object.fromEntries(Object.entries(battery).reverse()) as typeof battery;
    const changed = bodyOf("vehicle", { ...examples.vehicle, battery: turned, plate: "02" }, stamp(2), made);
    expect(changed.x).toEqual({ plate: stamp(2) });
    expect(changed.t).toBe(made.t);
  });
  test("is in the indexes only while it lives and has an owner and a day", () => {
    const made = bodyOf("entry", examples.entry, stamp(1), undefined);
    expect(made).toMatchObject({ w: "v1", y: "2027-02-09" });
    expect(deletedBody(made, stamp(2))).not.toHaveProperty("w");
    expect(bodyOf("reading", examples.reading, stamp(1), undefined).y).toBe(
      new Date(examples.reading.atUtcMs).toISOString(),
    );
    expect(bodyOf("vehicle", examples.vehicle, stamp(1), undefined)).not.toHaveProperty("w");
  });
  test("is told from what is none", () => {
    expect(isBody(bodyOf("entry", examples.entry, stamp(1), undefined))).toBe(true);
    for (const raw of [
      null,
      {},
      { key: "a/b", k: "c", f: {}, t: stamp(1) },
      { key: "a/b", k: "a", f: {}, t: "x" },
      { key: "a/b", k: "a", f: {}, t: stamp(1), x: { y: 1 } },
    ])
      expect(isBody(raw)).toBe(false);
  });
  test("values of the same content are the same", () => {
    expect(sameValue({ a: 1, b: [1, { c: 2, d: 3 }] }, { b: [1, { d: 3, c: 2 }], a: 1 })).toBe(true);
    expect(sameValue([1, 2], [2, 1])).toBe(false);
    expect(sameValue(undefined, null)).toBe(false);
  });
});
