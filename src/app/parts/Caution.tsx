import { useEffect, useState } from "preact/hooks";
import { set, settings } from "../settings.js";
import { core } from "../words/core.js";

const AGAIN_AFTER_MS = 30 * 86_400_000;

/**
 * Striped edge, one or two lines, at the point of risk; nothing to press away. In full when the case first arises on this phone and again
 * after 30 days; between, the stripe with a question mark that opens it. Without `id`: always in full.
 */
export function Caution({ text, id }: { text: string; id?: string }) {
  const [open, setOpen] = useState(() => id === undefined || isDue(id));
  useEffect(() => {
    if (id !== undefined && isDue(id)) set({ cautioned: { ...settings.peek().cautioned, [id]: Date.now() } });
  }, [id]);
  if (open)
    return (
      <p class="caution" role="note">
        {text}
      </p>
    );
  return (
    <button type="button" class="caution closed" aria-label={core.now().caution} onClick={() => setOpen(true)}>
      ?
    </button>
  );
}

const isDue = (id: string): boolean => Date.now() - (settings.peek().cautioned[id] ?? 0) > AGAIN_AFTER_MS;
