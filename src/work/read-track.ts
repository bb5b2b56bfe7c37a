import { encodingOf } from "../records/import/encoding.js";
import { gpxReader, MOST_CHARACTERS } from "../records/import/gpx.js";
import { type ImportedTrack, roundsOf } from "../records/import/track-round.js";
import { bad, good, type Outcome } from "../units/outcome.js";

const PIECE_BYTES = 1 << 20;

/** Reads a GPX file piece by piece and turns its tracks into rounds, the longest first. `onShare` hears how far it is, 0..1. */
export async function readTrackFile(file: Blob, onShare: (share: number) => void): Promise<Outcome<ImportedTrack[]>> {
  if (file.size > 2 * MOST_CHARACTERS) return bad({ code: "gpxTooBig", where: "", figures: { bytes: file.size } });
  const decoder = decoderOf(encodingOf(await bytesOf(file, 0, 100)));
  if (decoder === null) return bad({ code: "gpxEncoding", where: "" });
  const reader = gpxReader();
  for (let at = 0; at < file.size; at += PIECE_BYTES) {
    const bytes = await bytesOf(file, at, at + PIECE_BYTES);
    const piece = decode(decoder, bytes, at + PIECE_BYTES >= file.size);
    if (piece === null) return bad({ code: "gpxEncoding", where: "" });
    if (reader.push(piece)) break;
    onShare((at + bytes.length) / file.size);
  }
  const read = reader.end();
  return read.ok ? good(roundsOf(read.value)) : read;
}

const bytesOf = async (file: Blob, from: number, to: number): Promise<Uint8Array> =>
  new Uint8Array(await file.slice(from, to).arrayBuffer());

function decoderOf(encoding: string): TextDecoder | null {
  try {
    return new TextDecoder(encoding, { fatal: true });
  } catch {
    return null; // an encoding this phone does not know
  }
}

function decode(decoder: TextDecoder, bytes: Uint8Array, last: boolean): string | null {
  try {
    return decoder.decode(bytes, { stream: !last });
  } catch {
    return null; // bytes that are no text in this encoding
  }
}
