import { useEffect, useRef, useState } from "preact/hooks";
import { roundParts } from "../../../records/import/to-round.js";
import type { ImportedTrack, TrackNote } from "../../../records/import/track-round.js";
import type { RoundPart } from "../../../records/index.js";
import type { Outcome, Problem } from "../../../units/outcome.js";
import { readTrack } from "../../../work/track-call.js";
import { answerBroke } from "../../answers.js";
import { Fitted } from "../../parts/Fitted.js";
import { Icon } from "../../parts/Icon.js";
import { back } from "../../parts/icons.js";
import { Key } from "../../parts/keys.js";
import { Say } from "../../parts/Say.js";
import { TrackProfile, TrackWay } from "../../parts/TrackPicture.js";
import { core } from "../../words/core.js";
import { kitWords } from "../../words/kit.js";
import "../kit.css";

export const words = [kitWords];

type State =
  | { readonly step: "none" }
  | { readonly step: "reading"; readonly share: number; readonly stop: () => void }
  | { readonly step: "refused"; readonly problem: Problem }
  | { readonly step: "read"; readonly track: ImportedTrack };

interface AskProps {
  readonly onParts: (parts: readonly RoundPart[], name?: string) => void;
  readonly onClose: () => void;
}

/** A round from a track that a phone recorded: drawn, listed, handed over as legs and stops. Opens over the editor. */
export function TrackAsk({ onParts, onClose }: AskProps) {
  const words = kitWords.now().track;
  const [state, setState] = useState<State>({ step: "none" });
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const read = (file: File) => {
    const control = new AbortController();
    const stop = () => {
      control.abort();
      setState({ step: "none" });
    };
    setState({ step: "reading", share: 0, stop });
    readTrack({ input: file, signal: control.signal, onShare: (share) => setState({ step: "reading", share, stop }) })
      .then((outcome) => setState(stateOf(outcome)))
      .catch((why: unknown) => {
        if (!control.signal.aborted) answerBroke.value = why;
      });
  };
  const close = () => {
    if (state.step === "reading") state.stop();
    onClose();
  };
  const take = (track: ImportedTrack) => onParts(roundParts(track, words.stopName), track.name || words.name);
  return (
    <dialog ref={dialog} class="track-ask" aria-label={words.title} onClose={close}>
      <header class="top">
        <button type="button" class="ib" aria-label={core.now().keys.back} onClick={close}>
          <Icon of={back} />
        </button>
        <div class="who">
          <h1>{words.title}</h1>
        </div>
      </header>
      <div class="track-body">
        {state.step === "read" ? <Shown track={state.track} /> : <p class="kit-doubt">{words.ask}</p>}
        {state.step === "refused" && <Refused problem={state.problem} />}
        {state.step === "reading" && (
          <div class="kit-working">
            <p>{words.reading}</p>
            <progress max={1} value={state.share} aria-label={words.reading} />
            <Key onPress={state.stop}>{words.stop}</Key>
          </div>
        )}
        {state.step !== "read" && <p class="kit-doubt">{words.privacy}</p>}
      </div>
      <div class="ways">
        {state.step === "read" && (
          <Key kind="main" onPress={() => take(state.track)}>
            {words.keep}
          </Key>
        )}
        {state.step !== "reading" && (
          <FileKey
            first={state.step === "none"}
            word={state.step === "none" ? words.choose : words.other}
            onFile={read}
          />
        )}
      </div>
    </dialog>
  );
}

function stateOf(outcome: Outcome<ImportedTrack[]>): State {
  if (!outcome.ok) return { step: "refused", problem: outcome.problems[0] ?? { code: "xmlBadTag", where: "" } };
  const [track] = outcome.value;
  return track ? { step: "read", track } : { step: "refused", problem: { code: "gpxNoWay", where: "" } };
}

function FileKey({ word, first, onFile }: { word: string; first: boolean; onFile: (file: File) => void }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <Key kind={first ? "main" : ""} onPress={() => input.current?.click()}>
        {word}
      </Key>
      <input
        ref={input}
        type="file"
        accept=".gpx,application/gpx+xml,text/xml,application/xml"
        hidden
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = ""; // the same file may be chosen again
          if (file) onFile(file);
        }}
      />
    </>
  );
}

function Shown({ track }: { track: ImportedTrack }) {
  const words = kitWords.now().track;
  const stops = track.parts.filter((part) => part.kind === "stop").length;
  return (
    <>
      <div class="track-head">
        <TrackWay of={track.picture} size={96} />
        <p>
          <Say text={words.sums(track.km, track.climbM, track.dropM)} />
          <br />
          {track.picture.speedKmh && (
            <>
              <Say text={words.times(Math.round(track.driveMinutes), Math.round(track.standMinutes))} />
              <br />
            </>
          )}
          {words.parts(track.parts.length - stops, stops)}
        </p>
      </div>
      <Fitted class="track-room" guess={{ width: 340, height: 146 }}>
        {(box) => <TrackProfile of={track.picture} width={Math.max(200, box.width - 20)} words={words} />}
      </Fitted>
      <Parts track={track} />
      <ul class="track-notes">
        {track.notes.map((note) => (
          <li key={note.code}>{noteWords(note)}</li>
        ))}
        <li>{words.guesses}</li>
        <li>{words.privacy}</li>
      </ul>
    </>
  );
}

function Parts({ track }: { track: ImportedTrack }) {
  const words = kitWords.now().track;
  let stops = 0;
  return (
    <ol class="track-parts">
      {track.parts.map((part, i) => {
        if (part.kind === "stop") stops++;
        const key = `${i}${part.kind}`;
        return part.kind === "leg" ? (
          <li key={key}>{words.leg(part.km, Math.round(part.minutes), part.climbM, part.dropM)}</li>
        ) : (
          <li key={key} class="stop">
            <span>{part.name || words.stopName(stops)}</span>
            <span>{words.stand(Math.round(part.minutes))}</span>
          </li>
        );
      })}
    </ol>
  );
}

function noteWords(note: TrackNote): string {
  const { notes } = kitWords.now().track;
  if (note.code === "gaps") return notes.gaps(note.count, note.km);
  return "count" in note ? notes[note.code](note.count) : notes[note.code];
}

type ProblemWord = keyof ReturnType<typeof kitWords.now>["track"]["problems"];
/** Codes of the reader by the sentence that a person needs; whatever else is wrong with a file, it is broken. */
const SAYS: Readonly<Record<string, ProblemWord>> = {
  gpxNoTrack: "noTrack",
  gpxBadPoint: "noTrack",
  gpxNoWay: "noWay",
  gpxNotGpx: "notGpx",
  xmlNotXml: "notGpx",
  xmlBinary: "notGpx",
  xmlEmpty: "empty",
  xmlCutOff: "cutOff",
  xmlDoctype: "notAllowed",
  xmlEntity: "notAllowed",
  xmlTooDeep: "notAllowed",
  gpxTooBig: "tooBig",
  gpxTooManyPoints: "tooBig",
  xmlTooLong: "tooBig",
  gpxEncoding: "letters",
};

function Refused({ problem }: { problem: Problem }) {
  const words = kitWords.now().track;
  const line = problem.figures?.line;
  return (
    <p class="kit-working" role="alert">
      {words.problems[SAYS[problem.code] ?? "broken"]}
      {typeof line === "number" && <small>{words.line(line)}</small>}
    </p>
  );
}
