import { clock, joined } from "../words/format.js";
import type { RestWords } from "../words/rest/en.js";
import { restWords } from "../words/rest.js";
import { Key } from "./keys.js";
import { levelAt, type RoadBlock, type StripModel } from "./strip-model.js";

const doingAt = (model: StripModel, hour: number): RoadBlock["kind"] | "home" =>
  model.road.find((block) => hour >= block.fromH - 1e-6 && hour < block.toH - 1e-6)?.kind ?? "home";

/** One hour of the strip in one sentence; the same sentences stand in for the picture. */
export function hourSentence(words: RestWords, model: StripModel, hour: number, sunKmPerShare: number): string {
  const share = (line: readonly number[]) => Math.round(levelAt(model.hours, line, hour) * 100);
  const sun = model.sun.find((column) => column.hour === Math.floor(hour));
  const level = model.known
    ? words.hourLevel(hour, share(model.mid), share(model.low), share(model.high))
    : words.hourUnknown(hour);
  const km = Math.round((sun?.taken ?? 0) * sunKmPerShare);
  return joined(level, words.doing[doingAt(model, hour)], words.hourSun(km));
}

/** Whole hours of the strip, for stepping. */
export const readableHours = (model: StripModel): number[] => {
  const hours: number[] = [];
  for (let hour = Math.ceil(model.fromH); hour <= model.toH; hour++) hours.push(hour);
  return hours;
};

/** The hour to begin with: the one that comes next, else the first. */
export function firstHour(model: StripModel): number {
  const hours = readableHours(model);
  const { nowH } = model;
  return hours.find((hour) => nowH !== null && hour >= nowH) ?? hours[0] ?? 0;
}

/** Two keys that step one hour, and the sentence of that hour. */
export function HourReader(props: {
  readonly model: StripModel;
  readonly sunKmPerShare: number;
  readonly hour: number;
  readonly onHour: (hour: number) => void;
}) {
  const words = restWords.now();
  const { model, hour, onHour } = props;
  const hours = readableHours(model);
  const step = (by: number) => {
    const next = hour + by;
    if (hours.includes(next)) onHour(next);
  };
  return (
    <div class="hours">
      <p aria-live="polite">{hourSentence(words, model, hour, props.sunKmPerShare)}</p>
      <Key onPress={() => step(-1)} says={words.hourBack} kind={hours.includes(hour - 1) ? "" : "alt"}>
        <span class="fig" aria-hidden="true">
          ← {clock(hour - 1)}
        </span>
      </Key>
      <Key onPress={() => step(1)} says={words.hourOn} kind={hours.includes(hour + 1) ? "" : "alt"}>
        <span class="fig" aria-hidden="true">
          {clock(hour + 1)} →
        </span>
      </Key>
    </div>
  );
}

/** Three lines that explain the picture, in place. */
export function StripLegend() {
  return (
    <ol class="legend">
      {restWords.now().legend.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ol>
  );
}
