import { type Contribution, columnOf } from "./contributions";
import type { FitPoint } from "./fit-points";
import type { NormalEquations } from "./least-squares";
import { normalEquations } from "./normal-equations";

/** Level and leak are the first two contributions of every model. */
export const LEVEL = 0;
export const LEAK = 1;

export interface RiseModel {
  readonly contributions: readonly Contribution[];
  /** The level is fitted as a difference from this. */
  readonly centrePa: number;
  /** One for each contribution: what one unit of it adds at each point, in the point's noise. */
  readonly columns: readonly (readonly number[])[];
  readonly equations: NormalEquations;
  /** When the leak of this model begins. */
  readonly leakFromS: number;
}

const FASTEST_FADE_S = 18;
const FADE_RATIO = 1.5;
const SETTLE_TAUS_S = [10, 25] as const;
/** How far gas and gauge may be from rest at isolation, as a share of the pressure. [own choice] */
const SETTLE_FRACTION = 0.1;
const FILM_SHARES = [0.15, 0.3, 0.45, 0.6, 0.75] as const;
const FASTEST_LATE_S = 15;
const LATE_RATIO = 1.7;
const TRIAL_TAUS_S = [20, 60, 200, 700] as const;
const SWAYS = 4;
/** How far sun and cloud may sway the pressure where no temperatures were taken, as a share of it. [own choice] */
const SWAY_FRACTION = 0.008;
/** Drift of gas temperature and gauge over a whole hold, as a share of the pressure: about 2 K unseen. [own choice] */
const UNSEEN_DRIFT = 0.006;
const SEEN_DRIFT = 0.0025;
const DRIFT_AT_LEAST_OVER_S = 300;
/** Beyond the gas law a degree may move this share of the pressure (water's own curve: 0.06). [own choice] */
const WARMTH_PER_K = 0.01;

export interface ModelSpan {
  readonly slowestFadeS: number;
  readonly temperaturesKnown: boolean;
}

/** The contributions a record of these points could hold, if nothing changed during it. */
export function riseModel(points: readonly FitPoint[], span: ModelSpan): RiseModel {
  const lastS = points[points.length - 1]!.atS;
  const meanPa = points.reduce((sum, { pressurePa }) => sum + pressurePa, 0) / points.length;
  const contributions: Contribution[] = [{ kind: "level" }, { kind: "leak", fromS: 0 }];
  for (const tauS of spreadTaus(FASTEST_FADE_S, span.slowestFadeS, FADE_RATIO))
    contributions.push({ kind: "fade", tauS });
  for (const share of FILM_SHARES) contributions.push({ kind: "film", untilS: share * lastS });
  for (const tauS of SETTLE_TAUS_S)
    contributions.push({ kind: "settle", tauS, sigma: SETTLE_FRACTION * points[0]!.pressurePa });
  const sigma = (span.temperaturesKnown ? SEEN_DRIFT : UNSEEN_DRIFT) / Math.max(lastS, DRIFT_AT_LEAST_OVER_S);
  contributions.push({ kind: "drift", aboutS: lastS / 2, sigma });
  if (span.temperaturesKnown) contributions.push({ kind: "warmth", sigma: WARMTH_PER_K * meanPa });
  return modelOf(points, contributions, meanPa, 0);
}

/** The same, and the sun came and went. */
export function swayingModel(points: readonly FitPoint[], plain: RiseModel): RiseModel {
  const { atS: lastS } = points[points.length - 1]!;
  const contributions = [...plain.contributions];
  for (let turn = 1; turn <= SWAYS; turn++) {
    const perS = (Math.PI * turn) / lastS;
    for (const phase of [0, Math.PI / 2]) contributions.push({ kind: "sway", perS, phase, sigma: SWAY_FRACTION });
  }
  return modelOf(points, contributions, plain.centrePa, 0, plain);
}

/** The same, and something began at a moment: the leak, a film or fades. */
export function lateModel(
  points: readonly FitPoint[],
  plain: RiseModel,
  { slowestFadeS }: ModelSpan,
  lateFromS: number,
): RiseModel {
  const contributions: Contribution[] = [
    ...begunAt(plain.contributions, lateFromS),
    ...spreadTaus(FASTEST_LATE_S, slowestFadeS, LATE_RATIO).map(
      (tauS) => ({ kind: "late-fade", fromS: lateFromS, tauS }) as const,
    ),
  ];
  return modelOf(points, contributions, plain.centrePa, lateFromS, plain);
}

/** Time constants from the fastest to the slowest, both included: a level is bounded by the slowest there is. */
function spreadTaus(fastestS: number, slowestS: number, ratioAtMost: number): number[] {
  const steps = Math.ceil(Math.log(slowestS / fastestS) / Math.log(ratioAtMost));
  return Array.from({ length: steps + 1 }, (_, step) => fastestS * (slowestS / fastestS) ** (step / steps));
}

/** A small model to try a moment at: level, leak and what else the plain fit needed, and something begun then. */
export function trialModel(
  points: readonly FitPoint[],
  plain: RiseModel,
  needed: readonly Contribution[],
  lateFromS: number,
): RiseModel {
  const contributions: Contribution[] = [
    ...begunAt(needed, lateFromS),
    ...TRIAL_TAUS_S.map((tauS) => ({ kind: "late-fade", fromS: lateFromS, tauS }) as const),
  ];
  return modelOf(points, contributions, plain.centrePa, lateFromS, plain);
}

function begunAt([level, , ...others]: readonly Contribution[], fromS: number): Contribution[] {
  return [level!, { kind: "leak", fromS }, ...others, { kind: "film", untilS: fromS }];
}

/** Columns of contributions that `known` holds too are taken from there. */
function modelOf(
  points: readonly FitPoint[],
  contributions: readonly Contribution[],
  meanPa: number,
  leakFromS: number,
  known?: RiseModel,
): RiseModel {
  const columns = contributions.map((contribution) => {
    const at = known ? known.contributions.indexOf(contribution) : -1;
    return known && at >= 0 ? known.columns[at]! : columnOf(contribution, points);
  });
  return {
    contributions,
    centrePa: meanPa,
    columns,
    equations: normalEquations(points, contributions, columns, meanPa),
    leakFromS,
  };
}
