import { keepExtremes } from "./decimate";
import type { Span } from "./scale";
import type { Band } from "./subject";
import type { Stretch, VacuumTrace } from "./trace";

export type Projection = { x: (atS: number) => number; y: (pressurePa: number) => number; span: Span; columns: number };

/** One path a stretch, thinned to the extremes of each pixel column; stretches of one sample are dots instead. */
export function tracePaths(trace: VacuumTrace, stretches: readonly Stretch[], project: Projection): string[] {
  return stretches
    .map((stretch) => withinSpan(trace, stretch, project.span))
    .filter((stretch) => stretch.to - stretch.from > 1)
    .map((stretch) => {
      const kept = keepExtremes(trace, stretch, project.span, project.columns);
      return kept
        .map((index, place) => {
          const x = project.x(trace.atS[index] as number);
          const y = project.y(trace.pressureAbsPa[index] as number);
          return `${place === 0 ? "M" : "L"}${x} ${y}`;
        })
        .join("");
    });
}

/** Samples with a gap on both sides: no line can show them. */
export function dotsOf(trace: VacuumTrace, stretches: readonly Stretch[], project: Projection) {
  return stretches
    .map((stretch) => withinSpan(trace, stretch, project.span))
    .filter((stretch) => stretch.to - stretch.from === 1)
    .map(({ from }) => ({
      x: project.x(trace.atS[from] as number),
      y: project.y(trace.pressureAbsPa[from] as number),
    }));
}

/** The expected band as one closed area, and its middle. */
export function bandPaths(band: Band, project: Projection): { area: string; mid: string } {
  const places = Array.from({ length: band.atS.length }, (_, index) => index).filter((index) => {
    const at = band.atS[index] as number;
    return at >= project.span.fromS && at <= project.span.toS;
  });
  const at = (pressures: ArrayLike<number>) => (index: number) =>
    `${project.x(band.atS[index] as number)} ${project.y(pressures[index] as number)}`;
  const line = (points: string[]) => (points.length === 0 ? "" : `M${points.join("L")}`);
  const edge = [...places.map(at(band.hiPa)), ...places.toReversed().map(at(band.loPa))];
  return { area: edge.length === 0 ? "" : `${line(edge)}Z`, mid: line(places.map(at(band.midPa))) };
}

/** The part of a stretch inside the time shown, by bisection: stretches are in time order. */
function withinSpan(trace: VacuumTrace, { from, to }: Stretch, span: Span): Stretch {
  const firstAfter = (limitS: number, including: boolean) => {
    let low = from;
    let high = to;
    while (low < high) {
      const middle = (low + high) >> 1;
      const at = trace.atS[middle] as number;
      if (including ? at > limitS : at >= limitS) high = middle;
      else low = middle + 1;
    }
    return low;
  };
  return { from: firstAfter(span.fromS, false), to: firstAfter(span.toS, true) };
}
