import type { DayCase } from "../../../records/map/day.js";
import { legProfiles } from "../../../records/map/leg-profile.js";
import { Fitted } from "../../parts/Fitted.js";
import { LegPicture } from "../../parts/LegPicture.js";
import { roundsWords } from "../../words/rounds.js";

/** What each way asks: its speed, climb and energy, drawn along the km. */
export function Profile({ asked }: { asked: DayCase }) {
  const legs = legProfiles(asked);
  if (legs.length === 0) return null;
  return (
    <Fitted class="leg-room" guess={{ width: 336, height: 184 }}>
      {(box) => <LegPicture legs={legs} width={box.width} words={roundsWords.now().profile} />}
    </Fitted>
  );
}
