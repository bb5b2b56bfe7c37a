import { settings } from "./settings.js";
import { tagOf } from "./words/format.js";

/** A voice of the phone itself for the language that is set; a voice over the network does not count. */
function localVoice(): SpeechSynthesisVoice | null {
  if (!("speechSynthesis" in window)) return null;
  const { language } = settings.value;
  const fit = speechSynthesis.getVoices().filter((voice) => voice.localService && voice.lang.startsWith(language));
  return fit.find((voice) => voice.lang.replace("_", "-") === tagOf(language)) ?? fit[0] ?? null;
}

export const hasVoice = (): boolean => settings.value.voice && localVoice() !== null;

/** Reads one sentence aloud, if the phone can; false when it has no voice for the language. */
export function say(sentence: string): boolean {
  const voice = settings.value.voice ? localVoice() : null;
  if (!voice) return false;
  speechSynthesis.cancel();
  const spoken = new SpeechSynthesisUtterance(sentence);
  spoken.voice = voice;
  spoken.lang = voice.lang;
  spoken.rate = 0.9;
  speechSynthesis.speak(spoken);
  return true;
}
