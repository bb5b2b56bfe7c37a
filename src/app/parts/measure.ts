let pen: CanvasRenderingContext2D | null | undefined;

/** Width in px of bold text of a size, by the phone's own faces; by the number of letters where nothing can draw. */
export function textWidth(text: string, px: number, figures = false): number {
  if (pen === undefined)
    pen = typeof document === "undefined" ? null : document.createElement("canvas").getContext("2d");
  if (!pen) return text.length * px * 0.56;
  const style = getComputedStyle(document.documentElement);
  pen.font = `${figures ? 800 : 700} ${px}px ${style.getPropertyValue(figures ? "--fig" : "--text").replace("var(--text)", "sans-serif")}`;
  return pen.measureText(text).width;
}

/** The longest of some names that fits; empty when none does. */
export const fitting = (names: readonly string[], px: number, room: number): string =>
  names.find((name) => textWidth(name, px) <= room) ?? "";
