import { useState } from "preact/hooks";
import { cloudFactor, effectiveOkta } from "../../../calc/sun/cloud.js";
import { Key } from "../../parts/keys.js";
import { figures } from "../../words/format.js";
import { skyWords } from "../../words/sky.js";
import { type Cover, type CoverChange, hoursOf, painted } from "./cover.js";

const EIGHTHS = [0, 1, 2, 3, 4, 5, 6, 7, 8] as const;

/** Takes a cloud and paints hours with it. Light hangs from the top of each hour, as it does in the day strip. */
export function HourPaint(props: {
  readonly cover: Cover | undefined;
  readonly hours: readonly number[];
  readonly onPaint: (to: CoverChange) => void;
}) {
  const words = skyWords.now();
  const [okta, setOkta] = useState(4);
  const [thin, setThin] = useState(false);
  const { oktas, thin: thins } = hoursOf(props.cover);
  const typed = props.cover?.kind === "hours";
  /** What is read aloud begins with what is written on the key, so that it can be called by voice. */
  const named = (of8: number) => (of8 === 0 || of8 === 8 ? `${figures(of8)}: ${says(of8)}` : says(of8));
  const says = (of8: number) => (of8 === 0 ? words.clear : of8 === 8 ? words.covered : words.eighths(of8));
  return (
    <>
      <p class="hint">{words.brush}</p>
      <fieldset class="brushes" aria-label={words.brush}>
        {EIGHTHS.map((of8) => (
          <Key key={of8} kind="col" chosen={of8 === okta} says={named(of8)} onPress={() => setOkta(of8)}>
            <Eighths of8={of8} />
            <span class="small-fig">{figures(of8)}</span>
          </Key>
        ))}
        <Key kind="col" chosen={thin} says={words.thinSays} onPress={() => setThin(!thin)}>
          <ThinCloud />
          <span>{words.thin}</span>
        </Key>
      </fieldset>
      <fieldset class="hour-keys" aria-label={words.byHour}>
        {props.hours.map((hour) => (
          <Key
            key={hour}
            kind="col hour"
            says={words.hourSays(figures(hour), says(oktas[hour] ?? 0), thins[hour] ?? false)}
            onPress={() => void props.onPaint((now) => painted(now, hour, { okta, thin }))}
          >
            <Light of8={effectiveOkta(oktas[hour] ?? 0, thins[hour] ?? false)} typed={typed} />
            <span class="small-fig">{figures(hour)}</span>
          </Key>
        ))}
      </fieldset>
    </>
  );
}

/** A disc with so many eighths covered. */
function Eighths({ of8 }: { of8: number }) {
  const angle = (of8 / 8) * 2 * Math.PI;
  const x = 13 + 11 * Math.sin(angle);
  const y = 13 - 11 * Math.cos(angle);
  const slice = of8 === 8 ? "" : `M13 13V2A11 11 0 ${of8 > 4 ? 1 : 0} 1 ${x.toFixed(2)} ${y.toFixed(2)}z`;
  return (
    <svg width="26" height="26" viewBox="0 0 26 26" aria-hidden="true">
      <circle
        cx="13"
        cy="13"
        r="11"
        fill={of8 === 8 ? "currentColor" : "none"}
        stroke="currentColor"
        stroke-width="2"
      />
      {of8 > 0 && of8 < 8 && <path d={slice} fill="currentColor" />}
    </svg>
  );
}

/** Light that comes through: Kasten and Czeplak's share of a clear sky. Hollow while nobody said. */
function Light({ of8, typed }: { of8: number; typed: boolean }) {
  const tall = 40 * cloudFactor(of8);
  return (
    <svg width="32" height="44" viewBox="0 0 32 44" aria-hidden="true">
      <rect x="0" y="0" width="32" height="3" fill="currentColor" />
      <rect x="4" y="4" width="24" height={tall - 1} class={typed ? "s-taken" : "s-offered"} />
    </svg>
  );
}

function ThinCloud() {
  return (
    <svg
      width="26"
      height="26"
      viewBox="0 0 26 26"
      fill="none"
      stroke="currentColor"
      stroke-width="2.4"
      aria-hidden="true"
    >
      <path d="M2 8h15M6 13h18M3 18h14" />
    </svg>
  );
}
