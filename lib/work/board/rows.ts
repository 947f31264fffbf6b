import { type Board, dayIndexOf, endMs } from "./board";
import { type Placed, wayMs } from "./board-index";
import { fractionOf, type TimeScale } from "./time-scale";

/** A bar of a row: where it lies across the board, in which lane, and the bracket of its promise. */
export interface Bar {
  readonly visit: Placed;
  readonly left: number;
  readonly width: number;
  readonly lane: number;
  readonly bracket: { readonly left: number; readonly width: number; readonly level: number } | null;
  /** The piece by which the start lies outside the bracket; null inside. */
  readonly outside: {
    readonly left: number;
    readonly width: number;
    readonly minutes: number;
    readonly late: boolean;
  } | null;
}

/** The way between two stops: a thin line as long as the drive, and whether there is time for it. */
export interface Way {
  readonly left: number;
  readonly width: number;
  readonly lane: number;
  readonly minutes: number;
  readonly isTight: boolean;
}

export interface Row {
  readonly lanes: number;
  readonly bars: readonly Bar[];
  readonly ways: readonly Way[];
}

/** Rails under the bars, so that brackets that cross can be told apart. */
const LEVELS = 3;

/** A person's row. Stops come in the order of their start; those that overlap go under each other. */
export function layOutRow(board: Board, scale: TimeScale, stops: readonly Placed[]): Row {
  const laneEnds: number[] = [];
  const railEnds = Array<number>(LEVELS).fill(Number.NEGATIVE_INFINITY);
  const bars = stops.map((visit): Bar => {
    let lane = laneEnds.findIndex((end) => end <= visit.startMs);
    if (lane < 0) lane = laneEnds.push(0) - 1;
    laneEnds[lane] = endMs(visit);
    const left = fractionOf(scale, visit.startMs);
    const width = fractionOf(scale, endMs(visit)) - left;
    return { visit, left, width, lane, bracket: bracketOf(scale, visit, railEnds), outside: outsideOf(scale, visit) };
  });
  return { lanes: Math.max(1, laneEnds.length), bars, ways: listWays(board, scale, bars) };
}

function bracketOf(scale: TimeScale, { window }: Placed, railEnds: number[]): Bar["bracket"] {
  if (window === null) return null;
  const [left, right] = [fractionOf(scale, window.fromMs), fractionOf(scale, window.toMs)];
  if (right <= left) return null;
  let level = railEnds.findIndex((end) => end <= left);
  if (level < 0) level = railEnds.indexOf(Math.min(...railEnds));
  railEnds[level] = right;
  return { left, width: right - left, level };
}

function outsideOf(scale: TimeScale, { window, startMs }: Placed): Bar["outside"] {
  if (window === null || (startMs >= window.fromMs && startMs <= window.toMs)) return null;
  const late = startMs > window.toMs;
  const [fromMs, toMs] = late ? [window.toMs, startMs] : [startMs, window.fromMs];
  const left = fractionOf(scale, fromMs);
  return { left, width: fractionOf(scale, toMs) - left, minutes: Math.round((toMs - fromMs) / 60_000), late };
}

function listWays(board: Board, scale: TimeScale, bars: readonly Bar[]): readonly Way[] {
  return bars.flatMap((bar, i) => {
    const next = bars[i + 1];
    if (!next || dayIndexOf(board.days, bar.visit.startMs) !== dayIndexOf(board.days, next.visit.startMs)) return [];
    const needMs = wayMs(board, bar.visit.at, next.visit.at);
    const gapMs = next.visit.startMs - endMs(bar.visit);
    if (needMs === 0 || gapMs < 0) return [];
    const left = fractionOf(scale, next.visit.startMs - Math.min(needMs, gapMs));
    const width = fractionOf(scale, next.visit.startMs) - left;
    return [{ left, width, lane: next.lane, minutes: Math.round(needMs / 60_000), isTight: needMs > gapMs }];
  });
}
