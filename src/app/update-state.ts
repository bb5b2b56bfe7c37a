import { signal } from "@preact/signals";

/** A new version is here and waits for a word from the person. */
export const newVersionWaits = signal(false);
/** Another window started the new version; this one runs old code whose parts may be gone. */
export const otherWindowMoved = signal(false);
/** The parts for use without network could not all be kept. */
export const notAllKept = signal(false);
