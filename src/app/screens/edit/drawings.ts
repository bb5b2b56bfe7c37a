import { bar, type Drawing, filled } from "../../parts/icons.js";

export const setDrawing = filled(
  "M2 7h20v13H2zM4.6 9.6v7.8h14.8V9.6zM5 3h4.4v3H5zM14.6 3H19v3h-4.4zM6.4 12.2h4v2.6h-4zM15 10.8h2.4v1.6H19V15h-1.6v1.6H15V15h-1.6v-2.6H15z",
);
export const gears = filled(
  "M10.4 1.5h3.2l.6 2.6 2 .9 2.3-1.4 2.3 2.3-1.4 2.3.8 2 2.6.6V14l-2.6.6-.8 2 1.4 2.3-2.3 2.3-2.3-1.4-2 .9-.6 2.3h-3.2l-.6-2.3-2-.9-2.3 1.4-2.3-2.3 1.4-2.3-.8-2-2.6-.6v-3.2l2.6-.6.8-2-1.4-2.3 2.3-2.3L7.8 5l2-.9zM12 8a4 4 0 1 0 0 8 4 4 0 0 0 0-8z",
);
export const lamp = filled("M12 1.5a7 7 0 0 1 4 12.8V17H8v-2.7a7 7 0 0 1 4-12.8zM8 18.4h8v2H8zM9.6 21.4h4.8V23H9.6z");
export const dial: Drawing = bar(
  "M12 17 17 9",
  3,
  "M1.5 17a10.5 10.5 0 0 1 21 0v2h-21zM4.6 16.4h14.8a7.4 7.4 0 0 0-14.8 0z",
);
export const line = filled("M2 3h20v8H2zM1 13h22v3.4H1zM6 18.4h12L12 23z");
export const weight = filled(
  "M8.6 6.6a3.4 3.4 0 1 1 6.8 0c0 .5-.1 1-.3 1.4H19l3 13H2L5 8h3.9a3.4 3.4 0 0 1-.3-1.4zM12 5a1.6 1.6 0 1 0 0 3.2A1.6 1.6 0 0 0 12 5z",
);
export const panel = filled(
  "M5.4 3h13.2L23 18H1zM7.3 5.4 6.4 9h4.4V5.4zM13.2 5.4V9h4.4l-.9-3.6zM5.8 11.2l-1 4.4h6v-4.4zM13.2 11.2v4.4h6l-1-4.4zM10.8 19h2.4v3h-2.4z",
);
export const plus = filled("M10 3h4v7h7v4h-7v7h-4v-7H3v-4h7z");
export const up = filled("M12 3 21 13h-5.6v8H8.6v-8H3z");
export const down = filled("M12 21 3 11h5.6V3h6.8v8H21z");
export const cross = filled(
  "M5.6 2.8 12 9.2l6.4-6.4 2.8 2.8-6.4 6.4 6.4 6.4-2.8 2.8-6.4-6.4-6.4 6.4-2.8-2.8L9.2 12 2.8 5.6z",
);
