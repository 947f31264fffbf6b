import { wilsonInterval } from "@/lib/quality";
import { type Frame, type Plot, scaleFromZero, shareWords, type Tick } from "./frame";

export interface MonthRate {
  /** YYYY-MM. */
  readonly month: string;
  readonly words: string;
  readonly jobs: number;
  readonly callbacks: number;
}

export interface MonthLayout {
  readonly plot: Plot;
  readonly rateTicks: readonly Tick[];
  readonly months: readonly {
    readonly month: string;
    readonly x: number;
    readonly y: number;
    readonly lowY: number;
    readonly highY: number;
    /** Written under the axis; not under every month where they stand close. */
    readonly words: string | null;
  }[];
}

/** Share of each month's jobs that came back, with its interval. */
export function layoutMonths(months: readonly MonthRate[], { widthPx, heightPx, textPx }: Frame): MonthLayout {
  const plot = {
    left: textPx * 3.6,
    right: widthPx - textPx * 2.4,
    top: textPx * 0.8,
    bottom: heightPx - textPx * 2.4,
  };
  const intervals = months.map(wilsonInterval);
  const y = scaleFromZero(Math.max(0, ...intervals.map(([, high]) => high)), [plot.bottom, plot.top], 5, shareWords);
  const stepPx = (plot.right - plot.left) / Math.max(1, months.length);
  const every = Math.ceil((textPx * 5) / stepPx);
  return {
    plot,
    rateTicks: y.ticks,
    months: months.map(({ month, words, jobs, callbacks }, index) => ({
      month,
      x: plot.left + (index + 0.5) * stepPx,
      y: y.at(callbacks / jobs),
      lowY: y.at(intervals[index]![0]),
      highY: y.at(intervals[index]![1]),
      words: index % every === 0 ? words : null,
    })),
  };
}
