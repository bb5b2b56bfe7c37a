import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { compare, notCompared } from "./compare.js";
import { served } from "./served/index.js";
import { misshapen } from "./shape.js";
import { contextOf, type Table, tablesOf } from "./table.js";

const OWN = "shared/reference";
const folder = process.env.REFERENCE_TABLES ?? OWN;
const tables = tablesOf(folder);
const checks = tables.filter((table) => table.check !== null);
// Another folder may hold cases only; the drive cycles and factors they name are then read from the project's own.
const context = contextOf(folder === OWN ? tables : [...tables, ...tablesOf(OWN)]);

const nearness = (file: string, errors: ReturnType<typeof compare>["errors"]): string =>
  Object.entries(errors)
    .map(([field, { used, mean, max, count }]) => {
      const figures = `mean ${mean.toPrecision(3)}, largest ${max.toPrecision(3)} of ${count}`;
      return `${(100 * used).toFixed(1).padStart(6)} % of the gate: ${file} ${field}, ${figures}`;
    })
    .join("\n");

test(`the folder ${folder} holds tables with checks`, () => expect(checks.length).toBeGreaterThan(0));

test("every table has the shape of the schema", () => {
  const own = join(folder, "format.schema.json");
  const schema: unknown = JSON.parse(readFileSync(existsSync(own) ? own : join(OWN, "format.schema.json"), "utf8"));
  expect(tables.flatMap(({ file, raw }) => misshapen(schema, raw).map((why) => `${file}: ${why}`))).toEqual([]);
});

describe("reference tables", () => {
  for (const table of checks) {
    const serve = served.get(table.check ?? "");
    if (!serve) continue;
    test(`${table.check}: ${table.file}`, () => {
      const answers = table.cases.map((each) => serve(each.in as never, context));
      const { failures, errors } = compare(table, answers);
      // With REFERENCE_ERRORS=1 the errors of every field are printed, with the share of the gate that they use: how near, not only whether.
      if (process.env.REFERENCE_ERRORS) console.log(nearness(table.file, errors));
      expect(failures.slice(0, 20), `${failures.length} values outside the gates`).toEqual([]);
    });
  }
});

test("checks that no calculation serves yet are named as open", () => {
  const open = [...new Set(checks.map((table) => table.check ?? ""))].filter((check) => !served.has(check));
  if (open.length > 0) console.log(`open checks (${open.length}): ${open.join(", ")}`);
  expect(open.length).toBeLessThan(checks.length);
});

describe("the comparison itself", () => {
  const tableOf = (want: object, tolerance: Table["tolerance"], more: object = {}): Table => ({
    file: "made up",
    raw: {},
    title: "made up",
    check: "made up",
    tolerance,
    cases: [{ id: "one", in: { zenithDeg: 30, ...more }, want: { ...want } }],
    data: null,
  });
  const fails = (want: object, got: object, tolerance: Table["tolerance"] = {}) =>
    compare(tableOf(want, tolerance), [{ ...got }]).failures.length > 0;

  test("an exact field refuses any difference, also in kind", () => {
    expect(fails({ n: 3 }, { n: 3 })).toBe(false);
    expect(fails({ n: 3 }, { n: 3.0001 })).toBe(true);
    expect(fails({ ok: true }, { ok: 1 })).toBe(true);
    expect(fails({ text: "a" }, {})).toBe(true);
  });
  test("the wider of abs and rel counts", () => {
    const gate = { w: { abs: 1, rel: 0.01 } };
    expect(fails({ w: 1000 }, { w: 1009.9 }, gate)).toBe(false);
    expect(fails({ w: 1000 }, { w: 1010.1 }, gate)).toBe(true);
    expect(fails({ w: 10 }, { w: 10.9 }, gate)).toBe(false);
  });
  test("mean and max hold over the whole table and not for one value", () => {
    expect(fails({ w: [10, 20, 30] }, { w: [10, 20, 33] }, { w: { mean: 1 } })).toBe(false);
    expect(fails({ w: [10, 20, 30] }, { w: [10, 20, 33.1] }, { w: { mean: 1 } })).toBe(true);
    expect(fails({ w: [10, 20, 30] }, { w: [10, 20, 33] }, { w: { mean: 5, max: 2.9 } })).toBe(true);
  });
  test("a wanted null wants no value, a null in a list is not compared, NaN never passes", () => {
    expect(fails({ w: null, n: 1 }, { w: null, n: 1 })).toBe(false);
    expect(fails({ w: null, n: 1 }, { w: 0, n: 1 })).toBe(true);
    expect(fails({ w: [null, 2] }, { w: [77, 2] })).toBe(false);
    expect(fails({ w: [1, 2] }, { w: [null, 2] })).toBe(true);
    expect(fails({ w: 1 }, { w: Number.NaN }, { w: { mean: 99 } })).toBe(true);
    expect(fails({ w: [1, 2] }, { w: [1] })).toBe(true);
  });
  test("lists in lists are compared element by element", () => {
    expect(
      fails(
        {
          c: [
            [1, 2],
            [3, 4],
          ],
        },
        {
          c: [
            [1, 2],
            [3, 4],
          ],
        },
      ),
    ).toBe(false);
    expect(
      fails(
        {
          c: [
            [1, 2],
            [3, 4],
          ],
        },
        {
          c: [
            [1, 2],
            [3, 5],
          ],
        },
      ),
    ).toBe(true);
  });
  test("azimuth goes the short way round, as the angle on the sky", () => {
    expect(fails({ azimuthDeg: 359.9 }, { azimuthDeg: 0.2 }, { azimuthDeg: { abs: 0.16 } })).toBe(false);
    expect(fails({ azimuthDeg: 359.9 }, { azimuthDeg: 0.2 }, { azimuthDeg: { abs: 0.14 } })).toBe(true);
  });
  test("leaving much out is a failure", () => {
    expect(fails({ w: [1, 2, 3, 4] }, { w: [notCompared, 2, 3, 4] })).toBe(false);
    expect(fails({ w: [1, 2, 3, 4] }, { w: [notCompared, notCompared, 3, 4] })).toBe(true);
  });
  test("the shape check sees a table that is none", () => {
    const schema: unknown = JSON.parse(readFileSync(join(OWN, "format.schema.json"), "utf8"));
    const table = tables.find(({ check }) => check !== null)?.raw as object;
    expect(misshapen(schema, table)).toEqual([]);
    expect(misshapen(schema, { ...table, kind: "data" })).not.toEqual([]);
    expect(misshapen(schema, { ...table, units: { w: 1 } })).not.toEqual([]);
    expect(misshapen(schema, { ...table, title: "no" })).not.toEqual([]);
  });
});
