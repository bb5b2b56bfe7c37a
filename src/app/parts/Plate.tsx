/** A plate of many signs is written smaller and breaks. */
const longOf = (number: string): string => (number.length > 4 ? "long" : "");

/** The number as painted on the body. A hollow plate is going out. */
export function Plate({ number, size = "m", hollow }: { number: string; size?: "s" | "m" | "l"; hollow?: boolean }) {
  const names = ["plate", size === "m" ? "" : size, hollow ? "hollow" : "", longOf(number)].filter(Boolean).join(" ");
  return <span class={names}>{number}</span>;
}

/** A plate that can be pressed stands on a lip. */
export function PlateKey({ number, says, onPress }: { number: string; says: string; onPress: () => void }) {
  return (
    <button type="button" class={`plate lip ${longOf(number)}`} aria-label={says} onClick={onPress}>
      {number}
    </button>
  );
}
