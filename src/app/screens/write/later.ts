import { useEffect, useState } from "preact/hooks";

type Later = typeof import("../log/on-write.js");
let held: Later | null = null;

/** Questions about odd values and what few people write: writing a day does not wait for them, nor need them. */
export function useLater(): Later | null {
  const [later, setLater] = useState(held);
  useEffect(() => {
    if (later) return;
    import("../log/on-write.js")
      .then(async (part) => {
        await part.load();
        held = part;
        setLater(part);
      })
      .catch(() => undefined); // it has not come over the network: the four taps are enough
  }, [later]);
  return later;
}
