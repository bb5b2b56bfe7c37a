import { useEffect, useRef, useState } from "preact/hooks";
import { readFleetFile } from "../../records/fleet-file.js";
import type { Fleet } from "../../records/index.js";
import { type Backup, previewRestore, readBackup, restoreBackup } from "../../store/backup.js";
import { type ImportMode, importFleet, previewImport } from "../../store/transfer.js";
import { bad, type Outcome, type Problem } from "../../units/outcome.js";
import { share } from "../parts/icons-more.js";
import { Key, WayKey } from "../parts/keys.js";
import { openedStore, settleRecords } from "../shelf.js";
import { tellDone } from "../undo.js";
import { phoneWords } from "../words/phone.js";
import type * as Problems from "./BringProblems.js";

const MOST_BYTES = 60_000_000;

/** A file that was read and understood, with what it would do here. */
type Offer =
  | {
      readonly kind: "copy";
      readonly backup: Backup;
      readonly added: number;
      readonly changed: number;
      /** Removed here since the copy was made. */
      readonly gone: number;
    }
  | {
      readonly kind: "fleet";
      readonly fleet: Fleet;
      readonly added: number;
      readonly changed: number;
      readonly onlyHere: number;
    };

/** A copy or a fleet file: first what it would change, then the question, then all of it or nothing. */
export function BringIn() {
  const words = phoneWords.now();
  const [offer, setOffer] = useState<Offer | null>(null);
  const [refused, setRefused] = useState<Refused | null>(null);
  const look = async (file: File) => {
    const text = file.size > MOST_BYTES ? "" : await file.text();
    const found = file.size > MOST_BYTES ? bad({ code: "tooLarge", where: "" }) : await offerOf(text);
    setRefused(found.ok ? null : await refusedOf(found.problems, text));
    setOffer(found.ok ? found.value : null);
  };
  const take = async (mode: ImportMode) => {
    if (!offer) return;
    const store = await openedStore();
    const done =
      offer.kind === "copy"
        ? await restoreBackup(store, offer.backup, mode === "replace")
        : await importFleet(store, offer.fleet, mode);
    setRefused(done.ok ? null : await refusedOf(done.problems, ""));
    setOffer(null);
    if (!done.ok) return;
    await settleRecords();
    tellDone({ says: words.broughtIn, undo: null });
    void import("../learning.js").then(
      ({ learnFromLog }) => learnFromLog(undefined, { afresh: true }),
      () => undefined, // no network: with the next start, then
    );
  };
  return (
    <>
      <label class="key way as-key">
        <span class="what">
          <b>{words.bring}</b>
          <span>{words.bringHint}</span>
        </span>
        <input
          type="file"
          class="aside"
          accept=".json,application/json"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            event.currentTarget.value = ""; // the same file may be chosen again
            if (file) void look(file);
          }}
        />
      </label>
      {offer && <Ask offer={offer} onTake={(mode) => void take(mode)} onLeave={() => setOffer(null)} />}
      {refused && <refused.part.BringProblems problems={refused.problems} file={refused.file} />}
    </>
  );
}

interface Refused {
  readonly problems: readonly Problem[];
  /** What the text holds, however broken. */
  readonly file: unknown;
  readonly part: typeof Problems;
}

async function refusedOf(problems: readonly Problem[], text: string): Promise<Refused> {
  const part = await import("./BringProblems.js");
  await part.loadPlaceWords();
  let file: unknown = null;
  try {
    file = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch {
    // no record to name: the problem says so
  }
  return { problems, file, part };
}

async function offerOf(text: string): Promise<Outcome<Offer>> {
  const store = await openedStore();
  if (text.slice(0, 200).includes('"noonplug-backup"')) {
    const backup = readBackup(text);
    if (!backup.ok) return backup;
    const seen = await previewRestore(store, backup.value);
    if (!seen.ok) return seen;
    const { added, changed, gone } = seen.value;
    return {
      ok: true,
      value: { kind: "copy", backup: backup.value, added: added.length, changed: changed.length, gone: gone.length },
    };
  }
  const fleet = readFleetFile(text);
  if (!fleet.ok) return fleet;
  const seen = await previewImport(store, fleet.value);
  if (!seen.ok) return seen;
  const { added, changed, onlyHere } = seen.value;
  const counts = { added: added.length, changed: changed.length, onlyHere: onlyHere.length };
  return { ok: true, value: { kind: "fleet", fleet: fleet.value, ...counts } };
}

function Ask(props: {
  readonly offer: Offer;
  readonly onTake: (mode: ImportMode) => void;
  readonly onLeave: () => void;
}) {
  const words = phoneWords.now();
  const { offer } = props;
  const top = useRef<HTMLElement>(null);
  useEffect(() => top.current?.scrollIntoView({ block: "start" }), []);
  const says =
    offer.kind === "copy"
      ? `${words.fromCopy(offer.added, offer.changed)} ${offer.gone > 0 ? words.goneSince(offer.gone) : ""}`
      : words.fromFleet(offer.fleet.title, offer.added, offer.changed, offer.onlyHere);
  return (
    <section ref={top} class="asking" aria-live="polite">
      <p>{says}</p>
      <WayKey icon={share} title={words.addTo} main onPress={() => props.onTake("merge")} />
      {offer.kind === "fleet" && offer.onlyHere + offer.changed > 0 && (
        <Key onPress={() => props.onTake("replace")}>{words.replace}</Key>
      )}
      {offer.kind === "copy" && offer.gone > 0 && <Key onPress={() => props.onTake("replace")}>{words.bringBack}</Key>}
      <Key onPress={props.onLeave}>{words.keepOld}</Key>
    </section>
  );
}
