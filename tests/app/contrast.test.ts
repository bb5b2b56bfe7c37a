import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";

// Contrast ratio after WCAG 2.2, "relative luminance" and "contrast ratio" (W3C Recommendation, 5 October 2023).
const channel = (value: number): number => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => channel(Number.parseInt(hex.slice(at, at + 2), 16) / 255)) as [
    number,
    number,
    number,
  ];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

const css = readFileSync("src/app/tokens.css", "utf8");
function tokens(selector: string): Record<string, string> {
  const block = css.slice(css.indexOf(`${selector} {`)).split("}")[0] ?? "";
  return Object.fromEntries([...block.matchAll(/--(\w+): (#[0-9a-f]{6});/g)].map((found) => [found[1], found[2]]));
}
const LOOKS = { day: tokens(":root"), night: tokens('[data-look="night"]') };

test("the formula gives the ratio of black on white that WCAG states", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 10);
});

test("both looks name the same tokens, and enough of them", () => {
  expect(Object.keys(LOOKS.night).sort()).toEqual(Object.keys(LOOKS.day).sort());
  expect(Object.keys(LOOKS.day).length).toBeGreaterThanOrEqual(16);
});

// Level AAA of WCAG 1.4.6 asks 7:1 for text; 1.4.11 asks 3:1 for shapes that carry meaning.
const TEXT: readonly (readonly [string, string])[] = [
  ["ink", "ground"],
  ["ink", "panel"],
  ["ink2", "ground"],
  ["ink2", "panel"],
  ["ground", "ink"],
  ["onMass", "mass"],
  ["ground", "brick"],
  ["brick", "ground"],
  ["plug", "ground"],
  ["ink", "brickWash"],
  ["ink", "sunWash"],
  ["ink", "plugWash"],
];
const SHAPES: readonly (readonly [string, string])[] = [
  ["rule", "ground"],
  ["rule", "panel"],
  ["sunEdge", "ground"],
  ["sunEdge", "sun"],
  ["plug", "ground"],
  ["brick", "ground"],
  ["doubt", "ground"],
  ["ribbon", "ground"],
  ["sun", "ribbon"],
  ["lip", "ground"],
  ["mass", "ground"],
];

describe.each(Object.entries(LOOKS))("look: %s", (look, colours) => {
  const of = (name: string): string => colours[name] ?? `missing ${name}`;
  test.each(TEXT)("text in %s on %s is 7:1 or better", (front, back) => {
    expect(contrast(of(front), of(back))).toBeGreaterThanOrEqual(7);
  });
  // By night the sun is light on dark and needs no edge against itself.
  const shapes = look === "night" ? SHAPES.filter(([front, back]) => `${front}/${back}` !== "sunEdge/sun") : SHAPES;
  test.each(shapes)("a shape in %s on %s is 3:1 or better", (front, back) => {
    expect(contrast(of(front), of(back))).toBeGreaterThanOrEqual(3);
  });
});
