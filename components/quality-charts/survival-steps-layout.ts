import { scaleLinear } from "d3-scale";
import { area, curveStepAfter, line } from "d3-shape";
import type { SurvivalPoint } from "@/lib/quality";
import { type Frame, type Plot, shareWords, type Tick } from "./frame";

export interface SurvivalLine {
  readonly key: "sound" | "weak";
  readonly path: string;
  readonly band: string;
  readonly end: { readonly x: number; readonly y: number; readonly words: string };
}

export interface SurvivalLayout {
  readonly plot: Plot;
  readonly shareTicks: readonly Tick[];
  readonly dayTicks: readonly Tick[];
  readonly lines: readonly SurvivalLine[];
}

const MOST_ROWS = 20;

/** The steps as a table is read: each day while they are few, else the last step of each week with the week's callbacks. */
export function rowsByWeek(points: readonly SurvivalPoint[]): readonly SurvivalPoint[] {
  if (points.length <= MOST_ROWS) return points;
  const weeks = new Map<number, SurvivalPoint>();
  for (const point of points) {
    const week = Math.ceil(point.day / 7);
    const { events, atRisk } = weeks.get(week) ?? { events: 0, atRisk: point.atRisk };
    weeks.set(week, { ...point, events: events + point.events, atRisk });
  }
  return [...weeks.values()];
}

/** Share of jobs still without a callback over the days since closing, as steps; the band is the interval at each step. */
export function layoutSurvival(
  survival: { readonly sound: readonly SurvivalPoint[]; readonly weak: readonly SurvivalPoint[] },
  windowDays: number,
  { widthPx, heightPx, textPx }: Frame,
): SurvivalLayout {
  const plot = { left: textPx * 4.2, right: widthPx - textPx * 8.2, top: textPx * 0.8, bottom: heightPx - textPx * 3 };
  const lows = [...survival.sound, ...survival.weak].map(({ survival: at, interval95 }) => interval95?.[0] ?? at);
  const y = scaleLinear([Math.min(0.99, ...lows), 1], [plot.bottom, plot.top]).nice(4);
  const x = scaleLinear([0, windowDays], [plot.left, plot.right]);
  const lines = (["sound", "weak"] as const).map((key): SurvivalLine => {
    const points = survival[key];
    const last = points.at(-1);
    const start = { day: 0, survival: 1, interval95: [1, 1] as const };
    const steps = [start, ...points, { ...(last ?? start), day: windowDays }];
    const name = key === "sound" ? "Sound proof" : "Weak proof";
    return {
      key,
      path:
        line<(typeof steps)[number]>(
          ({ day }) => x(day),
          ({ survival: at }) => y(at),
        ).curve(curveStepAfter)(steps) ?? "",
      band:
        area<(typeof steps)[number]>(
          ({ day }) => x(day),
          ({ survival: at, interval95 }) => y(interval95?.[0] ?? at),
          ({ survival: at, interval95 }) => y(interval95?.[1] ?? at),
        ).curve(curveStepAfter)(steps) ?? "",
      end: { x: x(windowDays), y: y(last?.survival ?? 1), words: `${name} ${shareWords(last?.survival ?? 1)}` },
    };
  });
  return {
    plot,
    shareTicks: toldApart(y.ticks(4)).map(({ at, words }) => ({ at, px: y(at), words })),
    dayTicks: x.ticks(widthPx < 480 ? 3 : 6).map((at) => ({ at, px: x(at), words: String(at) })),
    lines: heldBelow(plot.top + textPx * 0.8, keptApart(lines, textPx * 2.6)),
  };
}

/** Shares near to one keep the decimals that tell them apart. */
function toldApart(shares: readonly number[]): { at: number; words: string }[] {
  const short = shares.map(shareWords);
  const isEnough = new Set(short).size === short.length;
  return shares.map((at, index) => ({ at, words: isEnough ? short[index]! : `${(at * 100).toFixed(1)} %` }));
}

/** Both labels moved down together until the upper one is on the paper. */
function heldBelow(topPx: number, lines: readonly SurvivalLine[]): SurvivalLine[] {
  const down = Math.max(0, topPx - Math.min(...lines.map(({ end }) => end.y)));
  return lines.map((each) => ({ ...each, end: { ...each.end, y: each.end.y + down } }));
}

/** Two labels at the line ends never stand on each other. */
function keptApart(lines: readonly SurvivalLine[], apartPx: number): SurvivalLine[] {
  const [first, second] = lines as [SurvivalLine, SurvivalLine];
  const gap = second.end.y - first.end.y;
  if (Math.abs(gap) >= apartPx) return [...lines];
  const push = (apartPx - Math.abs(gap)) / 2;
  const firstUp = gap >= 0 ? -1 : 1;
  return [
    { ...first, end: { ...first.end, y: first.end.y + firstUp * push } },
    { ...second, end: { ...second.end, y: second.end.y - firstUp * push } },
  ];
}
