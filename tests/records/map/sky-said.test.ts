import { expect, test } from "vitest";
import { newPlaceSky } from "../../../src/calc/learn/sky.js";
import { readRecord, type Sky, type Yard } from "../../../src/records/index.js";
import { learnedSky } from "../../../src/records/map/learned-input.js";
import { daySkyOf, skiesByDate, wordOf } from "../../../src/records/map/weather.js";
import { utcMsAt } from "../../../src/units/zone.js";
import { examples } from "../examples.js";

// Who said only the wind said nothing of the cloud: the day is reckoned as one of which nobody said anything.
const yard: Yard = examples.yard;
const date = "2027-02-10";
const windy: Sky = { ...examples.sky, date, cover: null, windMs: 6, wet: true };
const noon = utcMsAt(date, 720, yard.zone);
const none = skiesByDate([], yard.id);
const wind = skiesByDate([windy], yard.id);

test("a day of which only wind and wet roads were said keeps the month's usual sky", () => {
  expect(readRecord("sky", windy).ok).toBe(true);
  expect(wordOf(windy)).toBeNull();
  const [plain, said] = [daySkyOf(yard, none, date), daySkyOf(yard, wind, date)];
  expect(said.coverAt(noon)).toEqual(plain.coverAt(noon));
  const place = newPlaceSky(yard.id);
  const at = (sky: typeof plain, skies: typeof none) => learnedSky(sky, yard, skies, place).coverAt(noon);
  expect(at(said, wind)).toEqual(at(plain, none));
});

test("it says nothing of the day after it either", () => {
  const next = "2027-02-11";
  const at = utcMsAt(next, 720, yard.zone);
  expect(daySkyOf(yard, wind, next).coverAt(at)).toEqual(daySkyOf(yard, none, next).coverAt(at));
});
