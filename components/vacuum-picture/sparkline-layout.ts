import { spanOf } from "./layout";
import { dotsOf, tracePaths } from "./paths";
import { pressureScale, timeScale, usualPressureSpanPa } from "./scale";
import type { PictureSubject } from "./subject";
import { listStretches, usualGapS } from "./trace";

/** The sparkline's paths: the same scales and gaps as the picture, without words. */
export function layoutSparkline(
  subject: Pick<PictureSubject, "trace" | "targetPa" | "isolatedAtS" | "settlesAt">,
  widthPx: number,
  heightPx: number,
) {
  const { trace, targetPa, isolatedAtS, settlesAt } = subject;
  const span = spanOf(subject);
  const x = timeScale(span, 1, widthPx - 7);
  const y = pressureScale(usualPressureSpanPa(undefined), heightPx - 2, 2);
  const stretches = listStretches(trace, usualGapS(trace));
  const project = { x, y, span, columns: widthPx - 8 };
  return {
    traces: tracePaths(trace, stretches, project),
    dots: dotsOf(trace, stretches, project),
    targetY: targetPa === undefined ? null : y(targetPa),
    isolatedX: isolatedAtS === undefined ? null : x(isolatedAtS),
    settlesY: settlesAt === undefined ? null : y(settlesAt.estimatePa),
  };
}
