import { effect } from "@preact/signals";
import { settings } from "./settings.js";
import { newVersionWaits, notAllKept, otherWindowMoved } from "./update-state.js";

let waiting: ServiceWorker | null = null;
let agreed = false;
const HOUR_MS = 3_600_000;

/** Registers the service worker and watches for new versions; call after the first screen stands. */
export async function watchForNewVersion(): Promise<void> {
  if (!("serviceWorker" in navigator) || !import.meta.env.PROD) return;
  const had = navigator.serviceWorker.controller !== null;
  const registration = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" }).catch(() => null);
  if (!registration) return; // the network has gone since the first screen came
  const offer = (worker: ServiceWorker | null) => {
    if (!worker || !navigator.serviceWorker.controller) return;
    waiting = worker;
    newVersionWaits.value = true;
  };
  offer(registration.waiting);
  keepLanguage(registration);
  if (!savesData()) void navigator.serviceWorker.ready.then(({ active }) => active?.postMessage("keep all"));
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

/** The person asked the phone to save data: the later files are then fetched when first opened. */
const savesData = (): boolean =>
  (navigator as Navigator & { readonly connection?: { readonly saveData?: boolean } }).connection?.saveData === true;

/** Has the words of the language that is set kept for use without network; again after every change of it. */
function keepLanguage(registration: ServiceWorkerRegistration): void {
  effect(() => {
    const speak = settings.value.language;
    for (const worker of [registration.active, registration.waiting, registration.installing])
      worker?.postMessage({ speak });
  });
}

export function startNewVersion(): void {
  agreed = true;
  if (otherWindowMoved.value) location.reload();
  else waiting?.postMessage("agree");
}
