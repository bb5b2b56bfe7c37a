import type { ComponentChildren } from "preact";

/** Text in a picture that stays left to right: words of a right-to-left language keep their own order and swap their anchor. */
export function Label(props: {
  x: number;
  y: number;
  size: number;
  anchor?: "start" | "middle" | "end";
  figures?: boolean;
  on?: "ground" | "mass" | "plug" | "ink";
  halo?: boolean;
  children: ComponentChildren;
}) {
  const rtl = typeof document !== "undefined" && document.documentElement.dir === "rtl";
  const anchor = props.anchor ?? "start";
  const turned = rtl && anchor !== "middle" ? (anchor === "start" ? "end" : "start") : anchor;
  const names = [props.figures ? "f" : "", props.on ? `on-${props.on}` : "", props.halo ? "halo" : ""].join(" ").trim();
  return (
    <text
      class={names || undefined}
      x={props.x.toFixed(1)}
      y={props.y.toFixed(1)}
      font-size={props.size}
      text-anchor={turned}
      direction={rtl ? "rtl" : "ltr"}
    >
      {props.children}
    </text>
  );
}

/** Hatching, drawn once for all pictures of the page: doubt in ink, shortage in brick. */
export function Hatches() {
  return (
    <svg class="aside" width="0" height="0" aria-hidden="true">
      <defs>
        <pattern id="hatch" width="5.6" height="5.6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="5.6" height="5.6" fill="var(--ground)" />
          <rect width="1.7" height="5.6" fill="var(--ink)" />
        </pattern>
        <pattern id="hatch-brick" width="5.5" height="5.5" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <rect width="5.5" height="5.5" fill="var(--ground)" />
          <rect width="2.7" height="5.5" fill="var(--brick)" />
        </pattern>
      </defs>
    </svg>
  );
}
