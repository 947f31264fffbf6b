import { judgePulldown } from "@/lib/hvac/pulldown/judge-pulldown";
import type { PulldownRecord } from "@/lib/hvac/pulldown/record";
import { coldFilmPulldown } from "./cold-film-pulldown";
import { simulatePulldown } from "./simulated-pulldown";
import { steadyRigPulldown } from "./steady-rig-pulldown";

export interface ForecastErrors {
  /** Absolute logarithm of said over true time, sorted. */
  logErrors: number[];
  straightLineLogErrors: number[];
  /** Logarithm of the interval's upper over its lower end, sorted; open ends count as 9. */
  logWidths: number[];
  covered: number;
  finite: number;
  wronglyNever: number;
  never: number;
  neverSaid: number;
  milliseconds: number[];
}

/** Times under this are a sampling interval or two: no forecast to speak of. */
const LEAST_ETA_S = 20;

/** Three simulators, each with other physics than the engine's plant. */
const SIMULATORS = { plant: simulatePulldown, "steady-rig": steadyRigPulldown, "cold-film": coldFilmPulldown };
export type PulldownSimulator = keyof typeof SIMULATORS;
export const PULLDOWN_SIMULATORS = Object.keys(SIMULATORS) as PulldownSimulator[];

export function pulldownForecastErrors(kind: PulldownSimulator, from: number, to: number): ForecastErrors {
  const errors: ForecastErrors = {
    logErrors: [],
    straightLineLogErrors: [],
    logWidths: [],
    covered: 0,
    finite: 0,
    wronglyNever: 0,
    never: 0,
    neverSaid: 0,
    milliseconds: [],
  };
  for (let seed = from; seed < to; seed++) {
    const { record, trueEtaS } = SIMULATORS[kind](seed);
    const startedMs = performance.now();
    const { etaToTargetS, interval80S } = judgePulldown(record);
    errors.milliseconds.push(performance.now() - startedMs);
    if (trueEtaS === null) {
      errors.never++;
      if (etaToTargetS === null) errors.neverSaid++;
      continue;
    }
    if (trueEtaS < LEAST_ETA_S) continue;
    errors.finite++;
    if (etaToTargetS === null) {
      errors.wronglyNever++;
      continue;
    }
    const [low, high] = interval80S!;
    if (low <= trueEtaS && (high === null || trueEtaS <= high)) errors.covered++;
    errors.logWidths.push(high === null ? 9 : Math.log(high / Math.max(low, 0.5)));
    errors.logErrors.push(Math.abs(Math.log(Math.max(etaToTargetS, 1) / trueEtaS)));
    errors.straightLineLogErrors.push(Math.abs(Math.log(Math.max(straightLineEtaS(record), 1) / trueEtaS)));
  }
  for (const list of [errors.logErrors, errors.straightLineLogErrors, errors.logWidths]) list.sort((a, b) => a - b);
  return errors;
}

/** The rule it replaces: the last quarter of the readings, logarithm of pressure run on in a straight line. */
function straightLineEtaS({ readings, targetAbsPa }: PulldownRecord): number {
  const good = readings.filter(({ pressureAbsPa }) => pressureAbsPa > 0);
  const last = good[good.length - 1]!;
  const early = good[Math.floor(good.length * 0.75) - 1] ?? good[0]!;
  const perS = Math.log(early.pressureAbsPa / last.pressureAbsPa) / (last.atS - early.atS);
  return perS > 0 ? Math.log(last.pressureAbsPa / targetAbsPa) / perS : 4 * 3600;
}

export function at(sorted: readonly number[], share: number): number {
  return sorted[Math.floor(share * (sorted.length - 1))]!;
}
