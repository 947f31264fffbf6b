import { area, line } from "d3-shape";
import { binomialQuantile, type PersonFigures } from "@/lib/quality";
import { type Frame, type Plot, scaleFromZero, shareWords, type Tick } from "./frame";

export interface FunnelLayout {
  readonly plot: Plot;
  readonly rateTicks: readonly Tick[];
  readonly jobTicks: readonly Tick[];
  readonly pooledY: number;
  readonly inner: string;
  readonly outer: readonly string[];
  readonly dots: readonly {
    readonly technician: string;
    readonly x: number;
    readonly y: number;
    readonly beyond: "above" | "below" | null;
  }[];
}

/** Points along the width at which the limits are worked out. */
const STATIONS = 24;

/** Each person as a dot over how many jobs they had, inside the limits that chance alone draws around the common rate. */
export function layoutFunnel(
  people: readonly PersonFigures[],
  pooledRate: number,
  { widthPx, heightPx, textPx }: Frame,
): FunnelLayout {
  const plot = { left: textPx * 3.6, right: widthPx - textPx * 1.6, top: textPx * 0.8, bottom: heightPx - textPx * 3 };
  const most = Math.max(1, ...people.map(({ jobs }) => jobs));
  const x = scaleFromZero(most * 1.04, [plot.left, plot.right], widthPx < 480 ? 4 : 7, String);
  const fewest = Math.max(1, Math.min(most, ...people.map(({ jobs }) => jobs)) / 2);
  const limitsAt = (level: number, jobs: number) =>
    binomialQuantile(level, Math.round(jobs), pooledRate) / Math.round(jobs);
  const highestDot = Math.max(pooledRate, ...people.map(({ rate }) => rate));
  const highest = Math.min(1, Math.max(highestDot * 1.1, limitsAt(0.999, Math.max(5, fewest)), pooledRate * 2));
  const y = scaleFromZero(highest, [plot.bottom, plot.top], 5, shareWords);
  const stations = Array.from({ length: STATIONS + 1 }, (_, index) =>
    Math.max(1, Math.round(fewest + ((x.top - fewest) * index) / STATIONS)),
  );
  const held = (rate: number) => Math.max(plot.top, y.at(rate));
  const lineOf = (level: number) =>
    line<number>(
      (jobs) => x.at(jobs),
      (jobs) => held(limitsAt(level, jobs)),
    )(stations) ?? "";
  return {
    plot,
    rateTicks: y.ticks,
    jobTicks: x.ticks,
    pooledY: y.at(pooledRate),
    inner:
      area<number>(
        (jobs) => x.at(jobs),
        (jobs) => held(limitsAt(0.025, jobs)),
        (jobs) => held(limitsAt(0.975, jobs)),
      )(stations) ?? "",
    outer: [lineOf(0.001), lineOf(0.999)],
    dots: people.map(({ technician, jobs, rate, callbacks, limits998 }) => ({
      technician,
      x: x.at(jobs),
      y: y.at(rate),
      beyond: callbacks > limits998[1] ? "above" : callbacks < limits998[0] ? "below" : null,
    })),
  };
}
