import type { DayCase } from "../../../records/map/day.js";
import type { Answered } from "../../answers.js";
import { DayStrip } from "../../parts/DayStrip.js";
import { Fitted } from "../../parts/Fitted.js";
import { Mark } from "../../parts/Mark.js";
import { Plate, PlateKey } from "../../parts/Plate.js";
import { Say } from "../../parts/Say.js";
import { useMoving } from "../../parts/useMoving.js";
import { core } from "../../words/core.js";
import { editWords } from "../../words/edit.js";
import { clock, joined } from "../../words/format.js";
import type { TodayModel } from "../today-model.js";
import { todayModelOf } from "../today-of.js";
import { stripWords, verdictWords } from "../today-words.js";

interface PreviewProps {
  readonly asked: DayCase | null;
  /** The last answer that came; the case may have moved on since. */
  readonly answered: Answered | null;
  /** What it takes for granted, in words. */
  readonly says: string;
  /** Said when there is nothing to ask about. */
  readonly empty: string;
  readonly onOther?: (() => void) | undefined;
}
const GUESS = { width: 360, height: 96 };
/** Less height than on the screens whose question it answers. */
const SHORTER_PX = -56;

/** The day on top of a screen that changes it: verdict, number and strip move at once. */
export function Preview(props: PreviewProps) {
  const { asked, empty } = props;
  if (!asked)
    return (
      <section class="preview none">
        <p>{empty}</p>
      </section>
    );
  return <Shown {...props} asked={asked} />;
}

/** The strip starts where the vehicle leaves: now does not lie on it. */
const modelOf = (answered: Answered): TodayModel => {
  const model = todayModelOf(answered, answered.case.nowUtcMs);
  return { ...model, strip: model.strip && { ...model.strip, nowH: null } };
};

function Shown(props: PreviewProps & { readonly asked: DayCase }) {
  const { answered, asked, onOther } = props;
  const words = core.now();
  const edit = editWords.now();
  const model = answered && modelOf(answered);
  const told = model && verdictWords(words, model.said);
  const { plate } = asked.vehicle;
  return (
    <section class={`preview ${model?.said.verdict ?? "none"}`} aria-live="polite">
      <div class="preview-words">
        {onOther ? (
          <PlateKey number={plate} says={edit.preview.other(plate)} onPress={onOther} />
        ) : (
          <Plate number={plate} />
        )}
        {model && <Mark state={model.said.verdict} size={44} />}
        <p>
          <b>
            {told ? told.word : edit.preview.working} <Say text={told?.number ?? ""} />
          </b>
          <small>{props.says}</small>
        </p>
      </div>
      {model && <Strip model={model} />}
    </section>
  );
}

function Strip({ model }: { model: TodayModel }) {
  const moving = useMoving(model.strip, `${model.vehicleId} ${model.date}`);
  if (!moving.model) return null;
  const strip = moving.model;
  const words = { ...stripWords(core.now(), model), line: "", start: null, flag: null };
  return (
    <Fitted class="preview-strip" guess={GUESS}>
      {(box) => (
        <DayStrip
          model={strip}
          words={words}
          kind="compact"
          width={box.width}
          taller={SHORTER_PX}
          before={moving.before}
        />
      )}
    </Fitted>
  );
}

/** "if it leaves full, 06:00" */
export const leavesFull = (asked: DayCase): string => {
  const words = editWords.now().preview;
  const minute = asked.shifts[0]?.leaveMinute ?? asked.vehicle.usual.leaveMinute;
  return joined(words.ifFull, words.leaves(clock(minute / 60)));
};
