import type { ComponentChildren } from "preact";
import { vehicles } from "../fleet.js";
import type { Place } from "../places.js";
import { goBack } from "../router.js";
import { settings } from "../settings.js";
import { here } from "../state.js";
import { core } from "../words/core.js";
import { DemoBand, Feet } from "./Feet.js";
import { Icon } from "./Icon.js";
import { back as backDrawing, help as helpDrawing, speak as speakDrawing } from "./icons.js";
import { Places } from "./Places.js";
import { Plate } from "./Plate.js";
import { Ribbon } from "./Ribbon.js";
import { Hatches } from "./strip-text.js";

export interface PageProps {
  readonly title: string;
  readonly sub?: string;
  readonly plate?: string;
  /** Stands in place of the plate, with its own key. */
  readonly head?: ComponentChildren;
  /** Path above this screen; gives a back key. Left out on the four places. */
  readonly above?: string;
  readonly place: Place;
  /** Screens that ask one thing after another have no places bar, but a foot of their own. */
  readonly foot?: ComponentChildren;
  readonly onSay?: () => void;
  /** Help draws its key to the picture in place. */
  readonly help?: { readonly open: boolean; readonly toggle: () => void };
  /** The screen itself shows what was just kept and takes it back. */
  readonly ownUndo?: boolean;
  /** Reading width even on a desk. */
  readonly narrow?: boolean;
  readonly children: ComponentChildren;
}

/** Every screen: head, ribbon, the question, messages, four places. */
export function Page(props: PageProps) {
  return (
    <div class="page">
      <Hatches />
      <Top {...props} />
      <Ribbon riseH={here.value.riseH} setH={here.value.setH} nowH={here.value.nowH} />
      {settings.value.demo && <DemoBand />}
      <main class={props.narrow ? "mid narrow" : "mid"}>{props.children}</main>
      <Feet quiet={props.ownUndo === true} />
      {props.foot ?? <Places current={props.place} oneVehicle={vehicles.value.length === 1} />}
    </div>
  );
}

function Top({ title, sub, plate, head, above, onSay, help }: PageProps) {
  const keys = core.now().keys;
  return (
    <header class="top">
      {above !== undefined && (
        <button type="button" class="ib" aria-label={keys.back} onClick={() => goBack(above)}>
          <Icon of={backDrawing} />
        </button>
      )}
      {head ?? (plate && <Plate number={plate} />)}
      <div class="who">
        <h1>{title}</h1>
        {sub && <small>{sub}</small>}
      </div>
      {onSay && (
        <button type="button" class="ib" aria-label={keys.say} onClick={onSay}>
          <Icon of={speakDrawing} />
        </button>
      )}
      {help && (
        <button type="button" class="ib" aria-label={keys.help} aria-expanded={help.open} onClick={help.toggle}>
          <Icon of={helpDrawing} />
        </button>
      )}
    </header>
  );
}
