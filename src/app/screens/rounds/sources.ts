import type { FunctionComponent } from "preact";
import type { RoundPart, Yard } from "../../../records/index.js";
import type { Drawing } from "../../parts/icons.js";
import { trackSource } from "../track/source.js";

/** Another way to fill a round than typing, as a recorded track. It opens over the editor and hands over parts. */
export interface PartsSource {
  readonly word: () => string;
  readonly icon: Drawing;
  readonly Ask: FunctionComponent<{
    readonly yard: Yard;
    /** Put in place of what the round holds; a name where the source knows one. */
    readonly onParts: (parts: readonly RoundPart[], name?: string) => void;
    readonly onClose: () => void;
  }>;
}

/** Each is offered as a key beside "Add a way". A further source is one line here. */
export const SOURCES: readonly PartsSource[] = [trackSource];
