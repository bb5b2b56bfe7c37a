import { bar, type Drawing, filled } from "./icons.js";

export const turnBack = bar("M7 21V9.5a5.5 5.5 0 0 1 11 0V14", 3.4, "M12.4 12.8H23L17.7 20z");
export const swap = filled("M3 4.2h10.8V.7l7.2 5-7.2 4.9V7.2H3zM21 16.5H10.2v-3.4L3 18l7.2 4.9v-3.4H21z");
export const cut = filled(
  "M1 7h4.6v2.6H1zM1 14.4h4.6V17H1zM6.8 4.4h3.4l-1.8 5 2.2 2.6-2.2 2.6 1.8 5H6.8zM14 4.4h1.6c3.4 0 5.4 3 5.4 6.2h2v2.8h-2c0 3.2-2 6.2-5.4 6.2H14l-1.8-5 2.2-2.6-2.2-2.6z",
);
export const share = filled("M12 1.6 18 8h-4.3v7.4h-3.4V8H6zM3 12.4h4V15H5.8v4.6h12.4V15H17v-2.6h4v9.8H3z");
export const print: Drawing = {
  fill: "M6 2h12v5H6zM2 8.4h20v9h-3v-3.6H5v3.6H2z",
  bars: [{ d: "M6.6 15.4h10.8V22H6.6z", wide: 2.2 }],
};
export const spanner = filled(
  "M21.2 5.2a6 6 0 0 1-7.6 8L6.4 20.6A2.6 2.6 0 1 1 3 17.2l7.2-7.4a6 6 0 0 1 8-7.6L15 5.4l.6 4.2 4 .6z",
);
export const eye = filled(
  "M12 5c5 0 8.7 3.6 10.5 7-1.8 3.4-5.5 7-10.5 7S3.3 15.4 1.5 12C3.3 8.6 7 5 12 5zm0 2.8a4.2 4.2 0 1 0 0 8.4 4.2 4.2 0 0 0 0-8.4zM9.9 12a2.1 2.1 0 1 0 4.2 0a2.1 2.1 0 1 0-4.2 0z",
);
export const clock = filled(
  "M12 1.5a10.5 10.5 0 1 1 0 21 10.5 10.5 0 0 1 0-21zm-1.4 4.3v7.3l5.2 3.3 1.4-2.3-3.9-2.4V5.8z",
);
export const phone = filled("M6 1.5h12v21H6zM8.4 4v13.6h7.2V4zM10.6 19.2h2.8v1.8h-2.8z");
export const kept = filled("M2 12.2 5.4 8.8l4.4 4.4L18.8 4.2 22.2 7.6 9.8 20z");
