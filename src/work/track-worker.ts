import { readTrackFile } from "./read-track.js";
import type { TrackReply } from "./track-call.js";

// One file, one worker: whoever asked ends it when it is no longer wanted.
const reply = (message: TrackReply): void => self.postMessage(message);

self.onmessage = ({ data }: MessageEvent<Blob>) => {
  readTrackFile(data, (share) => reply({ share })).then(
    (outcome) => reply({ outcome }),
    (why: unknown) => reply({ broke: String(why) }),
  );
};
