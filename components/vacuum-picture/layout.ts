import { type Label, labelsWidthPx, layoutLabels, listWords } from "./labels";
import { type EventKind, type PlacedMark, placeMarks } from "./marks";
import { bandPaths, dotsOf, tracePaths } from "./paths";
import {
  closePressureSpanPa,
  listPressureTicks,
  listTimeTicks,
  pressureScale,
  type Span,
  type Tick,
  timeScale,
  usualPressureSpanPa,
} from "./scale";
import { type LineKey, listLines, type PictureEvent, type PictureFrame, type PictureSubject } from "./subject";
import { listStretches, measureTrace, usualGapS } from "./trace";

export type PictureLayout = {
  plot: { left: number; right: number; top: number; bottom: number };
  span: Span;
  x: (atS: number) => number;
  y: (pressurePa: number) => number;
  pressureTicks: (Tick & { y: number })[];
  timeTicks: (Tick & { x: number })[];
  traces: string[];
  dots: { x: number; y: number }[];
  /** Where the record ends. */
  end: { x: number; y: number } | null;
  lines: { key: LineKey; y: number }[];
  labels: Label[];
  marks: (PlacedMark & { kind: EventKind; words: string })[];
  laneHeightPx: number;
  isolatedX: number | null;
  band: { area: string; mid: string } | null;
  settle: { y: number; loY: number; hiY: number } | null;
};

const MOST_LANES = 4;

/** Every place and path of the picture in pixels. Pure: the same subject and frame give the same layout anywhere. */
export function layoutPicture(subject: PictureSubject, frame: PictureFrame): PictureLayout {
  const { trace } = subject;
  const { widthPx, heightPx, textPx, unit } = frame;
  const span = frame.span ?? spanOf(subject);
  const spanPa = pressureSpanOf(subject, frame);
  const left = Math.round(textPx * 4.6);
  const worded = listWords(subject, unit, frame.lastWord ?? "last", widthPx < textPx * 40);
  const right = Math.max(left + 40, widthPx - Math.max(labelsWidthPx(worded, textPx), textPx * 2));
  const laneHeightPx = Math.round(textPx * 1.45);
  const x = timeScale(span, left, right);
  const marks = layoutMarks(subject.events ?? [], span, x, { leftPx: left, rightPx: widthPx, textPx });
  const usedLanes = marks.reduce((most, mark) => Math.max(most, mark.lane === null ? 0 : mark.lane + 1), 0);
  const top = Math.round(textPx * 1.4 + usedLanes * laneHeightPx);
  const bottom = Math.max(top + 40, heightPx - Math.round(textPx * 2.1));
  const y = pressureScale(spanPa, bottom, top);
  const stretches = listStretches(trace, frame.gapAfterS ?? usualGapS(trace));
  const project = { x, y, span, columns: right - left };
  const most = Math.max(2, Math.floor((right - left) / (textPx * 5.5)));
  const countedFromS = frame.closeUp ? (subject.isolatedAtS ?? span.fromS) : span.fromS;
  const timesBy = frame.zone ? { zone: frame.zone } : { originS: countedFromS };
  return {
    plot: { left, right, top, bottom },
    span,
    x,
    y,
    pressureTicks: listPressureTicks(spanPa, unit).map((tick) => ({ ...tick, y: y(tick.at) })),
    timeTicks: listTimeTicks(span, most, timesBy).map((tick) => ({ ...tick, x: x(tick.at) })),
    traces: tracePaths(trace, stretches, project),
    dots: dotsOf(trace, stretches, project),
    end: endOf(subject, span, x, y),
    lines: listLines(subject).map((line) => ({ key: line.key, y: y(line.pressurePa) })),
    labels: layoutLabels(worded, { textPx, y, top, bottom }),
    marks,
    laneHeightPx,
    isolatedX: subject.isolatedAtS === undefined ? null : x(subject.isolatedAtS),
    band: subject.band ? bandPaths(subject.band, project) : null,
    settle: subject.settlesAt
      ? { y: y(subject.settlesAt.estimatePa), loY: y(subject.settlesAt.loPa), hiY: y(subject.settlesAt.hiPa) }
      : null,
  };
}

/** The time a subject covers, never less than a minute. */
export function spanOf({ trace, band, isolatedAtS, events = [] }: PictureSubject): Span {
  const ends = [
    trace.atS[0],
    trace.atS[trace.atS.length - 1],
    band?.atS[band.atS.length - 1],
    isolatedAtS,
    ...events.map((event) => event.atS),
  ].filter((at): at is number => at !== undefined && Number.isFinite(at));
  const fromS = ends.length === 0 ? 0 : Math.min(...ends);
  const toS = ends.length === 0 ? 0 : Math.max(...ends);
  return { fromS, toS: toS - fromS < 60 ? fromS + 60 : toS }; // a single reading still has a minute around it
}

function pressureSpanOf(subject: PictureSubject, frame: PictureFrame): [number, number] {
  const { trace, settlesAt, band } = subject;
  const { extent } = measureTrace(trace, frame.span);
  const lowest = extent && trace.pressureAbsPa[extent.lowest];
  const highest = extent && trace.pressureAbsPa[extent.highest];
  if (!frame.closeUp) return usualPressureSpanPa(lowest);
  const lines = [subject.targetPa, subject.limitPa, settlesAt?.loPa, settlesAt?.hiPa, band?.loPa[0], band?.hiPa[0]];
  return closePressureSpanPa(
    [lowest, highest, ...lines].filter((pressure): pressure is number => pressure !== undefined),
  );
}

function layoutMarks(
  events: readonly PictureEvent[],
  span: Span,
  x: (atS: number) => number,
  bounds: { leftPx: number; rightPx: number; textPx: number },
) {
  const shown = events.filter((event) => event.atS >= span.fromS && event.atS <= span.toS);
  const wanted = shown.map((event) => ({
    key: event.id,
    x: x(event.atS),
    widthPx: (event.words.length * 0.56 + 2) * bounds.textPx,
  }));
  const byId = new Map(shown.map((event) => [event.id, event]));
  return placeMarks(wanted, bounds, MOST_LANES).map((mark) => {
    const event = byId.get(mark.key) as PictureEvent;
    return { ...mark, kind: event.kind, words: event.words };
  });
}

function endOf({ trace }: PictureSubject, span: Span, x: (atS: number) => number, y: (pressurePa: number) => number) {
  const { extent } = measureTrace(trace, span);
  if (!extent) return null;
  return { x: x(trace.atS[extent.last] as number), y: y(trace.pressureAbsPa[extent.last] as number) };
}
