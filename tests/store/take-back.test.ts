import { expect, test } from "vitest";
import { withoutChange } from "../../src/store/take-back.js";

// Expectations by hand, from what a person means by "take that back": this change goes, everything typed since stays.
test.each([
  ["nothing since: as it was", { a: 1, b: 2 }, { a: 5, b: 2 }, { a: 5, b: 2 }, { a: 1, b: 2 }],
  ["another field since", { a: 1, b: 2 }, { a: 5, b: 2 }, { a: 5, b: 9 }, { a: 1, b: 9 }],
  ["the same field since: the later stays", { a: 1 }, { a: 5 }, { a: 7 }, { a: 7 }],
  ["inside a part", { p: { x: 1, y: 1 } }, { p: { x: 2, y: 1 } }, { p: { x: 2, y: 3 } }, { p: { x: 1, y: 3 } }],
  ["a field that was added goes", { a: 1 }, { a: 1, b: 2 }, { a: 3, b: 2 }, { a: 3 }],
  ["a field that was taken away comes back", { a: 1, b: 2 }, { a: 1 }, { a: 3 }, { a: 3, b: 2 }],
  ["a list with one more since", { l: [1] }, { l: [1, 2] }, { l: [1, 2, 3] }, { l: [1, 3] }],
  [
    "an item that was taken out, one more since",
    { l: ["x", "y"] },
    { l: ["y"] },
    { l: ["y", "z"] },
    { l: ["x", "y", "z"] },
  ],
  [
    "an item of a list, another item since",
    { l: [{ n: 1 }, { n: 2 }] },
    { l: [{ n: 9 }, { n: 2 }] },
    { l: [{ n: 9 }, { n: 8 }] },
    { l: [{ n: 1 }, { n: 8 }] },
  ],
])("%s", (_, was, became, now, back) => {
  expect(withoutChange(was, became, now)).toEqual(back);
});
