import { Icon } from "./Icon.js";
import type { Drawing } from "./icons.js";

// The four bodies a three-wheeler is told by at a glance.
const taxi: Drawing = {
  fill: "M2.5 3h16.5v2.4H2.5zM3.2 6.6h3.3V12H3.2zM7.7 6.6h5.2V12H7.7zM14 6.6h2.5l3.8 5.4H14zM2.5 13h18.8v5h-1.5a3.2 3.2 0 0 0-5.8-1.3H9.8A3.2 3.2 0 0 0 4 18H2.5zM4.7 18.7a2.3 2.3 0 1 0 4.6 0a2.3 2.3 0 1 0-4.6 0zM14.7 18.7a2.3 2.3 0 1 0 4.6 0a2.3 2.3 0 1 0-4.6 0z",
};
const van: Drawing = {
  fill: "M1.5 4.2h12v11.3h-12zM14.7 7.7h4l3.3 4.5V18h-1.2a3.2 3.2 0 0 0-6.1-.6zM16.4 9.4v3.2h3.6l-2.2-3.2zM1.5 16.7h12.7a3.2 3.2 0 0 0-.1 1.3H8.9a3.2 3.2 0 0 0-5.8 0H1.5zM3.7 18.7a2.3 2.3 0 1 0 4.6 0a2.3 2.3 0 1 0-4.6 0zM15.3 18.7a2.3 2.3 0 1 0 4.6 0a2.3 2.3 0 1 0-4.6 0z",
};
const rickshaw: Drawing = {
  fill: "M3 2.8h17v2.4H3zM4 5.2h2V12H4zM17 5.2h2V12h-2zM10.5 5.2h2V12h-2zM3 12h17.5v5.6h-1a3.1 3.1 0 0 0-5.7-.7H9.6a3.1 3.1 0 0 0-5.6.7H3zM4.7 18.6a2.3 2.3 0 1 0 4.6 0a2.3 2.3 0 1 0-4.6 0zM14.3 18.6a2.3 2.3 0 1 0 4.6 0a2.3 2.3 0 1 0-4.6 0z",
};
const stall: Drawing = {
  fill: "M2 2.5h20l-1.5 4.2h-17zM4 7.8h2v5.4H4zM18 7.8h2v5.4h-2zM3 13.2h18v4.4h-1.7a3.1 3.1 0 0 0-5.7-.7h-3.2a3.1 3.1 0 0 0-5.7.7H3zM5.3 18.6a2.3 2.3 0 1 0 4.6 0a2.3 2.3 0 1 0-4.6 0zM14.3 18.6a2.3 2.3 0 1 0 4.6 0a2.3 2.3 0 1 0-4.6 0zM9 9.3h6v2.6H9z",
};
export const BODIES = { passenger: taxi, goodsLarge: van, eRickshaw: rickshaw, vendingCart: stall };

export const Body = ({ of, size = 36 }: { of: keyof typeof BODIES; size?: number }) => (
  <Icon of={BODIES[of]} size={size} />
);

/** So many panels, drawn as they lie on a roof. */
export function Panels({ count }: { count: number }) {
  if (count === 0)
    return (
      <svg width="36" height="26" viewBox="0 0 36 26" aria-hidden="true">
        <rect
          x="9"
          y="5"
          width="18"
          height="16"
          fill="none"
          stroke="currentColor"
          stroke-width="2.2"
          stroke-dasharray="3.6 2.6"
        />
      </svg>
    );
  const places =
    count === 1
      ? [[9, 5]]
      : count === 2
        ? [
            [0, 5],
            [18.5, 5],
          ]
        : [
            [0, 0],
            [18.5, 0],
            [0, 14],
            [18.5, 14],
          ];
  const tall = count > 2 ? 12 : 16;
  return (
    <svg width="36" height="26" viewBox="0 0 36 26" fill="currentColor" aria-hidden="true">
      {places.map(([x, y]) => (
        <rect key={`${x} ${y}`} x={x} y={y} width="17" height={tall} />
      ))}
    </svg>
  );
}
