import { keptSettings, settings } from "./settings.js";

/** Takes over what another window kept; which records are open cannot change under a page, so that begins anew. */
globalThis.addEventListener?.("storage", () => {
  const now = keptSettings();
  if (!now.demo !== !settings.value.demo) location.reload();
  else settings.value = now;
});
