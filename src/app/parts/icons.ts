/** A drawing on a 24 grid: filled shapes (even-odd) and, where a bent bar says it better, strokes of at least 2. */
export interface Drawing {
  readonly fill: string;
  readonly bars?: readonly { readonly d: string; readonly wide: number; readonly dash?: string }[];
}
export const filled = (fill: string): Drawing => ({ fill });
export const bar = (d: string, wide: number, fill = ""): Drawing => ({ fill, bars: [{ d, wide }] });

// One constant per thing in the yard. What only later screens name stands in icons-more.ts, which the first screen does not load.
export const dome = filled("M2 12.8a10 10 0 0 1 20 0v1H2zM6.6 15.6h2.6V23H6.6zM14.8 15.6h2.6V23h-2.6z");
export const slate = filled("M2 3h20v18H2zM4.6 5.6v12.8h14.8V5.6zM7 8.2h6.5v3H7zM11 13h6v3h-6z");
export const vehicle = filled(
  "M1.5 3.2h18v2.6h-18zM3 7.4h12.6l5.9 6V18h-1.3a3.6 3.6 0 0 0-6.6-1.6H10A3.6 3.6 0 0 0 3.6 18H2v-6zM12.2 9.4v3.4h5.2l-3-3.4zM4.3 18.6a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0-5 0zM14.5 18.6a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0-5 0z",
);
export const money = filled("M1.5 5h21v14h-21zM4 7.5v9h16v-9zM8.9 12a3.1 3.1 0 1 0 6.2 0a3.1 3.1 0 1 0-6.2 0z");
export const speak = bar(
  "M15 8.2c2.4 1.7 2.4 5.9 0 7.6M18 5c4.6 3.4 4.6 10.6 0 14",
  2.6,
  "M2 8.5h4.4L12 4v16l-5.6-4.5H2z",
);
export const help = bar(
  "M7 8.6C7 5.6 9.2 3.6 12.1 3.6c3 0 5.1 1.9 5.1 4.6 0 3.8-4.4 4-4.4 7.4",
  3.2,
  "M10.9 17.8h3.6v3.4h-3.6z",
);
export const back = filled("M13.5 3 4.5 12l9 9v-5.6H21V8.6h-7.5z");
export const chalk = filled(
  "M3.2 15.4 14.6 4l4.2 4.2L7.4 19.6l-5.2 1zM16 2.8 17.4 1.6 22 6.2 20.6 7.4zM11.5 19.6H22v2.4H11.5z",
);
export const plug = filled(
  "M2 7.2h6v2.6H2zM2 14.2h6v2.6H2zM9.4 4.5h5.1c3.6 0 6 3 6 6.2h2v2.6h-2c0 3.2-2.4 6.2-6 6.2H9.4z",
);
export const bright = filled(
  "M7 12a5 5 0 1 0 10 0a5 5 0 1 0-10 0zM10.7 1h2.6v4h-2.6zM10.7 19h2.6v4h-2.6zM1 10.7h4v2.6H1zM19 10.7h4v2.6h-4zM3.3 5.1l1.8-1.8 2.8 2.8-1.8 1.8zM16.1 17.9l1.8-1.8 2.8 2.8-1.8 1.8zM3.3 18.9l2.8-2.8 1.8 1.8-2.8 2.8zM16.1 6.1l2.8-2.8 1.8 1.8-2.8 2.8z",
);
export const mixed = filled(
  "M4 10.6A6 6 0 0 1 15.2 7.2a6.6 6.6 0 0 0-5.3 3.9 5 5 0 0 0-3.7 2.6A6 6 0 0 1 4 10.6zM8.7 1h2.4v3.4H8.7zM1 9.6h2.4V12H1zM2.6 3.6 4.3 1.9l2.3 2.3L4.9 5.9zM9.2 21a4.1 4.1 0 0 1 .3-8.1 5.6 5.6 0 0 1 10.7 1.6A3.3 3.3 0 0 1 19.6 21z",
);
export const dark = filled(
  "M6.2 14.5a4.6 4.6 0 0 1 .4-9.1 6.3 6.3 0 0 1 12 1.7 3.7 3.7 0 0 1-.7 7.4zM6.8 17h2.6l-1.6 5H5.2zM12 17h2.6L13 22h-2.6zM17.2 17h2.6l-1.6 5h-2.6z",
);
export const emptyTray: Drawing = {
  fill: "M2 17.5h20V21H2z",
  bars: [{ d: "M8 9h8v7H8z", wide: 2.2, dash: "3.4 2.4" }],
};
export const halfTray = filled("M2 17.5h20V21H2zM6.5 8h11v8h-11z");
export const fullTray = filled("M2 17.5h20V21H2zM3.6 9.6h7.6V16H3.6zM12.8 9.6h7.6V16h-7.6zM8.2 2h7.6v6H8.2z");
export const flatRoad = filled("M1 16h22v4H1z");
export const someHills = filled("M1 20v-3c4 0 6-8 11-8s7 8 11 8v3z");
export const hills = filled("M1 20 8.2 5l4.1 8L16 7l7 13z");
export const drop = filled("M12 1.5c4 5 6.8 8.4 6.8 12.4a6.8 6.8 0 0 1-13.6 0C5.2 9.9 8 6.5 12 1.5z");
export const road = filled("M2 7h20v10H2zM4 10.8v2.4h4v-2.4zm6 0v2.4h4v-2.4zm6 0v2.4h4v-2.4z");
export const pad = filled(
  "M4 3h4.2v4.2H4zM9.9 3h4.2v4.2H9.9zM15.8 3H20v4.2h-4.2zM4 9h4.2v4.2H4zM9.9 9h4.2v4.2H9.9zM15.8 9H20v4.2h-4.2zM4 15h4.2v4.2H4zM9.9 15h4.2v4.2H9.9zM15.8 15H20v4.2h-4.2z",
);
export const trip = bar("M2 5.8h12.5a5.6 5.6 0 0 1 0 11.2H9", 3.4, "M10 11v12L1.5 17z");
