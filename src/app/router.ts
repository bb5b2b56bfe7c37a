import { signal } from "@preact/signals";

/**
 * The path stands in the query, as `/?vehicles/v07`: every static host serves it, and the service worker answers it without network.
 * Every step is one entry of the history, so the phone's own back key does what our back key does.
 */
export const path = signal(pathIn(location.search));

function pathIn(search: string): string {
  try {
    return decodeURIComponent(search.slice(1).split("&")[0] ?? "");
  } catch {
    return "";
  }
}

const addressOf = (to: string): string => (to ? `/?${to.split("/").map(encodeURIComponent).join("/")}` : "/");

interface Step {
  /** Steps of ours behind this one: 0 is where the app was opened. */
  readonly depth: number;
}
const depth = (): number => (history.state as Step | null)?.depth ?? 0;

/** One step on. */
export function go(to: string): void {
  if (to === path.value) return;
  history.pushState({ depth: depth() + 1 } satisfies Step, "", addressOf(to));
  path.value = to;
}

/** The same step, elsewhere: after a thing is done that should not be met again on the way back. */
export function goInstead(to: string): void {
  history.replaceState({ depth: depth() } satisfies Step, "", addressOf(to));
  path.value = to;
}

/** One step back; when the app was opened right here, to the place above. */
export function goBack(above: string): void {
  if (depth() > 0) history.back();
  else goInstead(above);
}

addEventListener("popstate", () => {
  path.value = pathIn(location.search);
});

/** Lets links act as links: the address shows, and a plain tap stays in the page. */
export function onLink(to: string) {
  return {
    href: addressOf(to),
    onClick: (event: MouseEvent) => {
      if (event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0) return;
      event.preventDefault();
      go(to);
    },
  };
}
