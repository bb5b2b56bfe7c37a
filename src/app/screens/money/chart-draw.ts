import {
  BarController,
  BarElement,
  CategoryScale,
  Chart,
  type ChartConfiguration,
  Filler,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
} from "chart.js";
import { figures } from "../../words/format.js";
import type { Picture, Series } from "./picture.js";

Chart.register(
  BarController,
  BarElement,
  CategoryScale,
  Filler,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
);

const token = (name: string): string => getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();

function dataset(series: Series, index: number) {
  const colour = token(series.look === "doubt" ? "doubt" : series.look === "plug" ? "plug" : "ink");
  const values = [...series.values];
  if (series.kind === "bars") {
    const brick = token("brick");
    return {
      type: "bar" as const,
      label: series.word,
      data: values,
      backgroundColor: values.map((value) => ((value ?? 0) < 0 ? brick : colour)),
    };
  }
  return {
    type: "line" as const,
    label: series.word,
    data: values,
    borderColor: colour,
    borderWidth: series.look === "doubt" ? 1.5 : 4,
    borderDash: series.look === "doubt" ? [6, 4] : [],
    stepped: series.kind === "steps" ? ("before" as const) : (false as const),
    pointRadius: 0,
    fill: series.look === "doubt" && index > 0 && series.fillTo === "before" ? ("-1" as const) : false,
    backgroundColor: `${colour}55`,
  };
}

/** Draws a picture onto a canvas; the caller destroys it. The table beside it holds the same figures, so the canvas is for eyes alone. */
export function drawPicture(canvas: HTMLCanvasElement, picture: Picture): { readonly destroy: () => void } {
  const [ink, rule] = [token("ink"), token("rule")];
  const font = { size: 14, weight: "bold" as const, family: getComputedStyle(document.body).fontFamily };
  const config: ChartConfiguration<"bar" | "line"> = {
    type: "bar",
    data: { labels: [...picture.labels], datasets: picture.series.map(dataset) },
    options: {
      animation: false,
      maintainAspectRatio: false,
      events: [],
      scales: {
        x: {
          reverse: document.documentElement.dir === "rtl",
          ticks: { color: ink, font, maxRotation: 0, autoSkipPadding: 12 },
          grid: { display: false },
          border: { color: ink, width: 2 },
        },
        y: {
          position: document.documentElement.dir === "rtl" ? "right" : "left",
          ticks: { color: ink, font, maxTicksLimit: 5, callback: (value) => figures(Number(value)) },
          grid: {
            color: (line) => (line.tick.value === 0 ? ink : rule),
            lineWidth: (line) => (line.tick.value === 0 ? 2.5 : 0.6),
          },
          border: { display: false },
        },
      },
    },
  };
  const chart = new Chart(canvas, config);
  return { destroy: () => chart.destroy() };
}
