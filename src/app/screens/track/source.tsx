import type { FunctionComponent } from "preact";
import { useEffect, useState } from "preact/hooks";
import { road } from "../../parts/icons.js";
import { kitWords } from "../../words/kit.js";
import { roundsWords } from "../../words/rounds.js";
import type { PartsSource } from "../rounds/sources.js";

type AskProps = Parameters<PartsSource["Ask"]>[0];

/** The reader of tracks, its words and its pictures are fetched when somebody has one to read. */
function LaterAsk(props: AskProps) {
  const [Ask, setAsk] = useState<FunctionComponent<AskProps> | null>(null);
  useEffect(() => {
    void Promise.all([import("./TrackAsk.js"), kitWords.load()]).then(([{ TrackAsk }]) => setAsk(() => TrackAsk));
  }, []);
  return Ask ? <Ask {...props} /> : null;
}

export const trackSource: PartsSource = { word: () => roundsWords.now().fromTrack, icon: road, Ask: LaterAsk };
