import { useState } from "preact/hooks";
import { airDensityKgM3, type HillAnswer, hillAnswer } from "../../../calc/road/index.js";
import type { Vehicle, Yard } from "../../../records/index.js";
import { type StringCheck, stringChecksOf } from "../../../records/map/panel-volts.js";
import { roadVehicleOf } from "../../../records/map/road.js";
import { Caution } from "../../parts/Caution.js";
import { Fitted } from "../../parts/Fitted.js";
import { emptyTray, fullTray, halfTray } from "../../parts/icons.js";
import { KeyRow } from "../../parts/keys.js";
import { figures } from "../../words/format.js";
import type { SheetWords } from "../../words/sheet/en.js";
import { sheetWords } from "../../words/sheet.js";
import { LimitBar, VoltWindow, Wedge } from "./pictures.js";

const GUESS_BOX = { width: 336, height: 62 };

/** Full load against the legal one. */
export function Weights({ vehicle }: { vehicle: Vehicle }) {
  const words = sheetWords.now().weights;
  const { fullLoadKg, legalLoadKg, kerbKg, driverKg } = vehicle;
  const leftKg = legalLoadKg === null ? null : legalLoadKg - fullLoadKg;
  const says =
    leftKg === null ? words.noLegal : leftKg < 0 ? words.over(figures(-leftKg)) : words.left(figures(leftKg));
  return (
    <section class="check" aria-label={words.title}>
      <Fitted class="picture" guess={GUESS_BOX}>
        {(box) => (
          <LimitBar
            value={fullLoadKg}
            limit={legalLoadKg}
            width={box.width}
            valueText={`${figures(fullLoadKg)} kg`}
            limitText={words.legal(figures(legalLoadKg ?? 0))}
            says={says}
          />
        )}
      </Fitted>
      {leftKg !== null && leftKg < 0 ? <Caution text={says} /> : <p>{says}</p>}
      <p class="hint">{words.all(figures(kerbKg + driverKg + fullLoadKg))}</p>
    </section>
  );
}

const SLOPES = [5, 10, 15, 20] as const;
const LOADS = ["empty", "half", "full"] as const;
const SHARE = { empty: 0, half: 0.5, full: 1 };
const TRAYS = { empty: emptyTray, half: halfTray, full: fullTray };
const MILD_AIR_C = 25;
/** Wheels at the back hold about this slope on dry asphalt, whatever the motor does; common practice, no source. */
const SLIPS_ABOVE = 0.3;

/** Which gear and how fast on four slopes, with a load of three. */
export function Hills({ vehicle, yard }: { vehicle: Vehicle; yard: Yard }) {
  const all = sheetWords.now();
  const words = all.hills;
  const [load, setLoad] = useState<(typeof LOADS)[number]>("full");
  const payloadKg = SHARE[load] * vehicle.fullLoadKg;
  const answers = SLOPES.map((percent) => ({ percent, answer: onSlope(vehicle, yard, payloadKg, percent) }));
  const steepest = answers[0]?.answer.steepestGrade ?? 0;
  return (
    <section class="check" aria-label={words.title}>
      <h2>{words.title}</h2>
      <KeyRow
        asks={words.load}
        chosen={load}
        onPick={setLoad}
        choices={LOADS.map((value) => ({ value, word: all.choices[value], icon: TRAYS[value] }))}
      />
      <ul class="hills">
        {answers.map(({ percent, answer }) => (
          <li key={percent} class={answer.holds ? "" : "bad"}>
            <Wedge percent={percent} holds={answer.holds} />
            <span class="fig" role="img" aria-label={words.slope(percent)}>
              {figures(percent)} %
            </span>
            <HillWords answer={answer} words={words} />
          </li>
        ))}
      </ul>
      <p>
        {steepest > SLIPS_ABOVE
          ? words.steepestOver(figures(100 * SLIPS_ABOVE))
          : words.steepest(figures(Math.floor(100 * steepest)))}
      </p>
      <p class="hint">{words.worked}</p>
    </section>
  );
}

export function onSlope(vehicle: Vehicle, yard: Yard, payloadKg: number, percent: number): HillAnswer {
  return hillAnswer(roadVehicleOf(vehicle), {
    surface: "asphalt",
    wet: false,
    payloadKg,
    airDensityKgM3: airDensityKgM3(yard.altitudeM, MILD_AIR_C),
    grade: percent / 100,
  });
}

/** Loads are told by steps that can be lifted. */
const TO_KG = 10;
function HillWords({ answer, words }: { answer: HillAnswer; words: SheetWords["hills"] }) {
  const kg = Math.floor(answer.mostPayloadKg / TO_KG) * TO_KG;
  if (answer.gear === null || answer.speedKmh === null)
    return (
      <span>
        <b>{words.not}</b>
        <small>{kg > 0 ? words.most(figures(kg)) : words.none}</small>
      </span>
    );
  const { lastingKmh, bearsMinutes } = answer;
  const tires = Number.isFinite(bearsMinutes) && bearsMinutes < 30;
  return (
    <span>
      <b>{words.goes(answer.gear, figures(Math.floor(answer.speedKmh)))}</b>
      <small>
        {!answer.startsOff
          ? words.notStart
          : !tires
            ? ""
            : lastingKmh === null
              ? words.rest(figures(Math.max(1, Math.floor(bearsMinutes))))
              : words.lasting(figures(Math.floor(lastingKmh)))}
      </small>
    </span>
  );
}

/** Volts of each string on the coldest morning and on a hot noon, against the charge controller. */
export function PanelVolts({ vehicle, yard }: { vehicle: Vehicle; yard: Yard }) {
  const words = sheetWords.now().volts;
  const checks = stringChecksOf(vehicle, yard);
  if (checks.length === 0) return null;
  const known = checks.some((check) => check.coldV !== null || check.hotV !== null);
  return (
    <section class="check" aria-label={words.title}>
      <h2>{words.title}</h2>
      {!known && <p>{words.unknown}</p>}
      {(known ? checks : []).map((check) => (
        <OneString key={check.faces.join()} check={check} vehicle={vehicle} many={checks.length > 1} />
      ))}
      <p class="hint">{words.estimate}</p>
    </section>
  );
}

function OneString({ check, vehicle, many }: { check: StringCheck; vehicle: Vehicle; many: boolean }) {
  const all = sheetWords.now();
  const words = all.volts;
  const { coldV, hotV, mostV, leastV } = check;
  const first = check.faces[0] ?? 0;
  const name = check.faces.length > 1 ? words.all : all.face(first + 1, vehicle.roof.faces[first]?.name ?? "");
  const says = stringSays(check, words);
  const known = coldV !== null || hotV !== null;
  return (
    <div class="string">
      {(many || check.faces.length > 1) && <h3>{name}</h3>}
      {known && (
        <Fitted class="picture" guess={GUESS_BOX}>
          {(box) => (
            <VoltWindow
              leastV={leastV}
              mostV={mostV}
              coldV={coldV}
              hotV={hotV}
              width={box.width}
              says={says.join(" ")}
            />
          )}
        </Fitted>
      )}
      {known && <p class="hint">{stringFigures(check, words)}</p>}
      {says.map((sentence) =>
        check.coldOk === false || check.hotOk === false ? (
          <Caution key={sentence} text={sentence} />
        ) : (
          <p key={sentence}>{sentence}</p>
        ),
      )}
    </div>
  );
}

/** What the picture shows, in words. */
function stringFigures(check: StringCheck, words: SheetWords["volts"]): string {
  const { coldV, hotV, mostV, leastV } = check;
  const told = [
    coldV === null ? "" : `${figures(coldV)} V: ${words.cold(figures(check.coldestAirC))}`,
    hotV === null ? "" : `${figures(hotV)} V: ${words.hot(figures(check.hotCellC))}`,
    leastV === null ? "" : words.least(figures(leastV)),
    mostV === null ? "" : words.most(figures(mostV)),
  ];
  return told.filter(Boolean).join("; ");
}

function stringSays(check: StringCheck, words: SheetWords["volts"]): string[] {
  const { coldV, hotV, mostV, leastV, coldOk, hotOk } = check;
  const bad = [
    coldOk === false && coldV !== null && mostV !== null ? words.coldOver(figures(coldV), figures(mostV)) : "",
    hotOk === false && hotV !== null && leastV !== null ? words.hotUnder(figures(hotV), figures(leastV)) : "",
  ].filter(Boolean);
  if (bad.length > 0) return bad;
  return [coldOk === null ? words.unknown : words.good];
}
