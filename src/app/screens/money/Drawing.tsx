import { useEffect, useRef, useState } from "preact/hooks";
import { Key } from "../../parts/keys.js";
import { languageTurn } from "../../words/load.js";
import { moneyWords } from "../../words/money.js";
import type { Picture } from "./picture.js";

/** A picture that is drawn, and its library fetched, only when somebody asks for it. The table stands beside it in any case. */
export function Drawing({ picture }: { picture: Picture }) {
  const words = moneyWords.now();
  const [asked, setAsked] = useState(false);
  if (!asked)
    return (
      <div class="m-ways no-print">
        <Key onPress={() => setAsked(true)}>{words.draw}</Key>
      </div>
    );
  return (
    <figure class="m-figure">
      <Canvas picture={picture} />
      <figcaption class="hint m-caption">
        {picture.series.map(({ word, look }) => (
          <span key={word} class={`m-key m-key-${look}`}>
            {word}
          </span>
        ))}
        <span>{words.drawn}</span>
      </figcaption>
    </figure>
  );
}

function Canvas({ picture }: { picture: Picture }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const shown = JSON.stringify(picture);
  const turn = languageTurn.value;
  useEffect(() => {
    let drawn: { readonly destroy: () => void } | null = null;
    let gone = false;
    void import("./chart-draw.js").then(({ drawPicture }) => {
      if (!gone && canvas.current) drawn = drawPicture(canvas.current, JSON.parse(shown) as Picture);
    });
    return () => {
      gone = true;
      drawn?.destroy();
    };
  }, [shown, turn]);
  return (
    <div class="m-chart">
      <canvas ref={canvas} role="img" aria-label={picture.says} />
    </div>
  );
}
