import type { Drawing } from "./icons.js";

/** A drawing beside a word; hidden from readers, who get the word. */
export function Icon({ of, size = 24 }: { of: Drawing; size?: number }) {
  return (
    <svg width={size} height={size} viewBox="0 0 24 24" fill="currentColor" aria-hidden="true">
      <path fill-rule="evenodd" d={of.fill} />
      {of.bars?.map((one) => (
        <path
          key={one.d}
          d={one.d}
          fill="none"
          stroke="currentColor"
          stroke-width={one.wide}
          stroke-dasharray={one.dash}
        />
      ))}
    </svg>
  );
}
