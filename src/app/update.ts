import { signal } from "@preact/signals";

/** A new version is here and waits for a word from the person. */
export const newVersionWaits = signal(false);
/** Another window started the new version; this one runs old code whose parts may be gone. */
export const otherWindowMoved = signal(false);
/** The parts for use without network could not all be kept. */
export const notAllKept = signal(false);

let waiting: ServiceWorker | null = null;
let agreed = false;
const HOUR_MS = 3_600_000;

/** Registers the service worker and watches for new versions; call after the first screen stands. */
export async function watchForNewVersion(): Promise<void> {
  if (!("serviceWorker" in navigator) || !import.meta.env.PROD) return;
  const had = navigator.serviceWorker.controller !== null;
  const registration = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
  const offer = (worker: ServiceWorker | null) => {
    if (!worker || !navigator.serviceWorker.controller) return;
    waiting = worker;
    newVersionWaits.value = true;
  };
  offer(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const worker = registration.installing;
    worker?.addEventListener("statechange", () => {
      if (worker.state === "installed") offer(worker);
      if (worker.state === "redundant" && !registration.active) notAllKept.value = true;
    });
  });
  let firstTakeover = !had; // the very first worker takes over without any change of code
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (agreed) location.reload();
    else if (firstTakeover) firstTakeover = false;
    else if (document.visibilityState === "hidden")
      location.reload(); // nothing is unsaved: every tap is kept at once
    else otherWindowMoved.value = true;
  });
  const look = () => registration.update().catch(() => undefined); // no network: the version at hand goes on
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void look();
  });
  setInterval(look, HOUR_MS);
}

export function startNewVersion(): void {
  agreed = true;
  if (otherWindowMoved.value) location.reload();
  else waiting?.postMessage("agree");
}
