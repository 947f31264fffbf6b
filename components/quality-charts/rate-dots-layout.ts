import type { Rate } from "@/lib/quality";
import { type Frame, longestOf, type Plot, scaleFromZero, shareWords, type Tick, textWidthPx } from "./frame";

/** A group of jobs with the share that came back. */
export interface RateRow extends Rate {
  readonly key: string;
  readonly name: string;
}

export interface RateDotsLayout {
  readonly plot: Plot;
  readonly ticks: readonly Tick[];
  readonly rows: readonly {
    readonly key: string;
    readonly name: string;
    readonly counts: string;
    readonly y: number;
    /** Null where there is no job to say it from. */
    readonly mark: { readonly x: number; readonly lowX: number; readonly highX: number } | null;
  }[];
}

/** One row a group: a dot at the share that came back, a line over its interval, the counts under its name. */
export function layoutRateDots(rows: readonly RateRow[], { widthPx, textPx }: Frame): RateDotsLayout {
  const counts = rows.map(({ jobs, callbacks }) => `${callbacks} of ${jobs}`);
  const left = textWidthPx(longestOf([...rows.map(({ name }) => name), ...counts]), textPx) + textPx;
  const right = widthPx - textPx * 1.6;
  const top = textPx * 0.5;
  const rowPx = textPx * 3.4;
  const bottom = top + rows.length * rowPx;
  const highest = Math.max(0, ...rows.map(({ interval95 }) => interval95?.[1] ?? 0));
  const x = scaleFromZero(highest, [left, right], widthPx < 480 ? 4 : 6, shareWords);
  return {
    plot: { left, right, top, bottom },
    ticks: x.ticks,
    rows: rows.map(({ key, name, rate, interval95 }, index) => ({
      key,
      name,
      counts: counts[index]!,
      y: top + (index + 0.5) * rowPx,
      mark:
        rate === null || interval95 === null
          ? null
          : { x: x.at(rate), lowX: x.at(interval95[0]), highX: x.at(interval95[1]) },
    })),
  };
}

/** The height a chart of so many rows needs. */
export function rateDotsHeightPx(rows: number, textPx: number): number {
  return Math.ceil(textPx * (rows * 3.4 + 4));
}
