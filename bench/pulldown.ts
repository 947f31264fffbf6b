import { at, PULLDOWN_SIMULATORS, pulldownForecastErrors } from "../tests/hvac/pulldown/forecast-errors";
import { type Figure, median, printWhenStarted } from "./figure";

const PULLDOWNS = 300;

/** The pulldown forecast against known truth, beside the logarithm of pressure run on in a straight line. */
export async function benchPulldown(): Promise<readonly Figure[]> {
  const figures: Figure[] = [];
  for (const kind of PULLDOWN_SIMULATORS) {
    const errors = pulldownForecastErrors(kind, 7000, 7000 + PULLDOWNS);
    const straightLine = (share: number) => ({
      name: "straight line",
      value: at(errors.straightLineLogErrors, share),
    });
    const percent = (part: number, whole: number) => (whole === 0 ? 0 : (100 * part) / whole);
    figures.push(
      {
        name: `${kind}: log error of the time left, median`,
        value: at(errors.logErrors, 0.5),
        unit: "",
        beside: straightLine(0.5),
      },
      {
        name: `${kind}: log error of the time left, 90 of 100`,
        value: at(errors.logErrors, 0.9),
        unit: "",
        beside: straightLine(0.9),
      },
      {
        name: `${kind}: truth inside the 80 % interval`,
        value: percent(errors.covered, errors.logErrors.length),
        unit: "%",
      },
      { name: `${kind}: log width of the interval, median`, value: at(errors.logWidths, 0.5), unit: "" },
      {
        name: `${kind}: never reached but not said, of ${errors.never}`,
        value: percent(errors.never - errors.neverSaid, errors.never),
        unit: "%",
      },
      {
        name: `${kind}: wrongly never, of ${errors.finite}`,
        value: percent(errors.wronglyNever, errors.finite),
        unit: "%",
      },
      { name: `${kind}: time for one pulldown, median`, value: median(errors.milliseconds), unit: "ms", atMost: 60 },
    );
  }
  return figures;
}

await printWhenStarted(import.meta.url, benchPulldown);
