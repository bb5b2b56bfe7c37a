import { useEffect, useState } from "preact/hooks";
import type { ComparedDay } from "../../calc/sizing/compare.js";
import type { Vehicle } from "../../records/index.js";
import { type VariantChange, variantCases } from "../../records/map/variants.js";
import { askDay } from "../../work/ask-day.js";
import { answerBroke, caseOf } from "../answers.js";
import { book } from "../fleet.js";
import { KeyRow } from "../parts/keys.js";
import { Mark } from "../parts/Mark.js";
import { Page } from "../parts/Page.js";
import { Say } from "../parts/Say.js";
import type { ScreenProps } from "../places.js";
import { nowUtcMs } from "../state.js";
import { core } from "../words/core.js";
import { kitWords } from "../words/kit.js";
import { type KitSubject, kitSubject } from "./kit-state.js";
import "./kit.css";

export const words = [kitWords];

type Aspect = "set" | "roof" | "link" | "gears";
const ASPECTS: readonly Aspect[] = ["set", "roof", "link", "gears"];
type VariantName = keyof ReturnType<typeof kitWords.now>["beside"]["names"];
interface Variant {
  readonly name: VariantName;
  readonly change: VariantChange;
}

/** The ways to build one part of a vehicle, its own first. */
function variantsOf(vehicle: Vehicle, aspect: Aspect): Variant[] {
  const all = ALL[aspect];
  const own = ownOf(vehicle, aspect);
  const others = all.filter(({ name }) => name !== own);
  const asIs: Variant = { name: own, change: { kind: "asIs" } };
  return [asIs, ...others].slice(0, 3);
}

const ALL: Readonly<Record<Aspect, readonly Variant[]>> = {
  set: (["lfp", "floodedLead", "sealedLead"] as const).map((to) => ({ name: to, change: { kind: "chemistry", to } })),
  roof: (["flat", "twoSided", "none"] as const).map((to) => ({ name: to, change: { kind: "roof", to } })),
  link: (["trackerPerFace", "oneTracker", "series"] as const).map((to) => ({ name: to, change: { kind: "link", to } })),
  gears: (["five", "one"] as const).map((to) => ({ name: to, change: { kind: "gears", to } })),
};

function ownOf({ battery, roof, drive }: Vehicle, aspect: Aspect): VariantName {
  if (aspect === "set") return battery.chemistry;
  if (aspect === "link") return roof.link;
  if (aspect === "gears") return drive.gears.length > 1 ? "five" : "one";
  if (roof.faces.length === 0) return "none";
  return roof.faces.every((face) => face.tiltDeg < 3) ? "flat" : "twoSided";
}

/** Two or three ways to build one vehicle, on the same round under the same sky. */
export function Screen({ params }: ScreenProps) {
  const words = kitWords.now().beside;
  const subject = kitSubject(params[0]);
  if (!subject)
    return (
      <Page title={words.title} place="vehicles" above="vehicles">
        {null}
      </Page>
    );
  return <Sides subject={subject} />;
}

function Sides({ subject }: { subject: KitSubject }) {
  const words = kitWords.now().beside;
  const { vehicle, yard } = subject;
  const [aspect, setAspect] = useState<Aspect>("set");
  const [days, setDays] = useState<{ readonly aspect: Aspect; readonly of: readonly ComparedDay[] } | null>(null);
  const variants = variantsOf(vehicle, aspect);
  useEffect(() => {
    const control = new AbortController();
    const given = caseOf(book.value, vehicle, yard, nowUtcMs.peek());
    const cases = variantCases(
      given,
      variants.map(({ change }) => change),
    );
    askDay(
      "compare",
      cases.map((each, i) => ({ name: String(i), given: each })),
      control.signal,
    )
      .then((of) => setDays({ aspect, of }))
      .catch((why: unknown) => {
        if (!control.signal.aborted) answerBroke.value = why;
      });
    return () => control.abort();
  }, [aspect, vehicle, yard]);
  const shown = days?.aspect === aspect ? days.of : [];
  const roofless = vehicle.roof.faces.length === 0 && (aspect === "roof" || aspect === "link");
  return (
    <Page title={words.title} sub={words.sub} plate={vehicle.plate} place="vehicles" above={`kit/${vehicle.id}`} narrow>
      <section class="ask">
        <h2>{words.ask}</h2>
        <KeyRow
          asks={words.ask}
          chosen={aspect}
          onPick={setAspect}
          choices={ASPECTS.map((value) => ({ value, word: words.aspects[value] }))}
        />
      </section>
      {roofless ? (
        <p class="kit-working">{words.noRoof}</p>
      ) : (
        <ul class="sides" aria-live="polite">
          {variants.map(({ name }, i) => (
            <Side key={name} name={words.names[name]} now={i === 0} day={shown[i] ?? null} />
          ))}
        </ul>
      )}
    </Page>
  );
}

function Side({ name, now, day }: { name: string; now: boolean; day: ComparedDay | null }) {
  const words = kitWords.now().beside;
  const answer = day?.answer;
  const left = answer ? (answer.kmLeft.p50 < 0 ? Math.ceil(-answer.kmLeft.p50) : Math.floor(answer.kmLeft.p50)) : 0;
  return (
    <li class={now ? "now" : ""}>
      <Mark state={answer ? answer.verdict : "notKnown"} size={56} />
      <div>
        <h2>
          {name} {now && <small>{words.now}</small>}
        </h2>
        {answer ? (
          <>
            <p class="left">
              {core.now().states[answer.verdict]}{" "}
              <Say text={answer.kmLeft.p50 < 0 ? words.kmUnder(left) : words.kmLeft(left)} />
            </p>
            <p class="more">
              <Say text={moreOf(day).join(" · ")} />
            </p>
          </>
        ) : (
          <p class="more">{core.now().working}</p>
        )}
      </div>
    </li>
  );
}

function moreOf({ answer, hardest }: ComparedDay): string[] {
  const words = kitWords.now().beside;
  const sunKm = answer.whPerKm > 0 ? answer.sunTaken.p50 / answer.whPerKm : 0;
  return [
    words.sun(Math.floor(sunKm)),
    ...(answer.topUp.gridKwh > 0.05 ? [words.plug(answer.topUp.gridKwh)] : []),
    ...(answer.lateMinutes >= 1 ? [words.late(Math.round(answer.lateMinutes))] : []),
    ...(hardest ? [words.problems[hardest.problem]] : []),
  ];
}
