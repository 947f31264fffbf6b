import { line } from "d3-shape";
import type { RareEventChart } from "@/lib/quality";
import { type Frame, type Plot, scaleFromZero, type Tick } from "./frame";

export interface GapLayout {
  readonly plot: Plot;
  readonly ticks: readonly Tick[];
  readonly path: string;
  readonly points: readonly { readonly x: number; readonly y: number; readonly signal: "sooner" | "later" | null }[];
  readonly centreY: number;
  readonly limitYs: readonly [number, number];
}

/** Good jobs between one callback and the next, oldest first: high is good. Limits stand where chance alone reaches 27 times in 10 000. */
export function layoutGaps(chart: RareEventChart, { widthPx, heightPx, textPx }: Frame): GapLayout {
  const plot = { left: textPx * 3, right: widthPx - textPx * 6.2, top: textPx * 0.8, bottom: heightPx - textPx * 2.6 };
  const highest = Math.max(chart.limits[1], ...chart.gaps.map(({ gap }) => gap));
  const y = scaleFromZero(highest, [plot.bottom, plot.top], 5, String);
  const stepPx = (plot.right - plot.left) / Math.max(1, chart.gaps.length);
  const points = chart.gaps.map(({ gap, signal }, index) => ({
    x: plot.left + (index + 0.5) * stepPx,
    y: y.at(gap),
    signal,
  }));
  return {
    plot,
    ticks: y.ticks,
    path:
      line<(typeof points)[number]>(
        (point) => point.x,
        (point) => point.y,
      )(points) ?? "",
    points,
    centreY: y.at(chart.centre),
    limitYs: [y.at(chart.limits[0]), y.at(chart.limits[1])],
  };
}
