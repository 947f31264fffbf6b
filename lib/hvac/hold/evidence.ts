import type { ReadingLog } from "./cells";
import { type FitPoint, fitPoints } from "./fit-points";
import type { HoldTerms } from "./record";
import {
  type Bound,
  boundLeak,
  boundLevel,
  type Claim,
  curveOf,
  fitClaim,
  fitRise,
  leakOf,
  levelOf,
  type RiseFit,
} from "./rise-fit";
import { lateModel, type ModelSpan, riseModel, swayingModel, trialModel } from "./rise-model";

/** What a record says about the circuit, before anything is held against the criteria. */
export interface Evidence {
  readonly points: readonly FitPoint[];
  readonly lastS: number;
  /** The fits' own time starts here: later than isolation where what came before was disturbed and is over. */
  readonly fromS: number;
  /** Models the data cannot tell apart, best first; a fit includes its penalty. */
  readonly fits: readonly RiseFit[];
  /** How many times wider than the readings' own scatter the truth may lie: the models are not exact. */
  readonly widening: number;
  readonly temperaturesKnown: boolean;
}

/** Fades slower than this many times the record are a leak for all it can show. [own choice] */
const SLOWEST_FADE_SHARE = 2;
const ASSUMED_DEGREES = 6;
const SUSPECT_MISFIT = 1.4;
const SUSPECT_FOLLOWING = 0.4;
const LATE_PENALTY = 7;
const SWAY_PENALTY = 10;
const DEAREST = 4;
const KEPT_WITHIN = 30;
const LATE_SHARES: readonly number[] = [0.06, 0.13, 0.21, 0.3, 0.39, 0.48, 0.57, 0.66, 0.74, 0.82];
const LATEST_SHARE = 0.86;
const LATE_REFINE_FROM = 0.04;
const LATE_REFINE_TO = 0.004;
/** A record no model explains is judged from its last part, if that is long and quiet enough. */
const DISTURBED = 1.8;
const SETTLED_AGAIN = 1.6;
const TAIL_SHARES = [0.25, 0.4, 0.55] as const;
const TAIL_POINTS = 10;
const TAIL_SHARE_OF_HOLD = 0.4;
const LATE_MIN_POINTS = 12;

export function weighRecord(log: ReadingLog, terms: HoldTerms): Evidence {
  const points = fitPoints(log, terms);
  const whole = weighPoints(points, 0, terms);
  if (whole.widening < DISTURBED) return whole;
  for (const share of TAIL_SHARES) {
    const fromS = share * whole.lastS;
    const tail = points.filter(({ atS }) => atS >= fromS);
    if (tail.length < TAIL_POINTS || whole.lastS - fromS < TAIL_SHARE_OF_HOLD * terms.criteria.holdS) break;
    const later = weighPoints(tail, fromS, terms);
    if (later.widening < SETTLED_AGAIN) return { ...later, points };
  }
  return whole;
}

function weighPoints(every: readonly FitPoint[], fromS: number, terms: HoldTerms): Evidence {
  const points = fromS > 0 ? every.map((point) => ({ ...point, atS: point.atS - fromS })) : every;
  const lastS = points[points.length - 1]!.atS;
  const temperaturesKnown = points.some(({ warmingK }) => Math.abs(warmingK) > 0.2);
  const span = {
    slowestFadeS: SLOWEST_FADE_SHARE * Math.max(lastS + fromS, terms.criteria.holdS),
    temperaturesKnown,
  };
  const steady = fitRise(riseModel(points, span), 0);
  const plain = qualityOf(steady, points);
  const found = { points: every, lastS: lastS + fromS, fromS, temperaturesKnown };
  const suspect = plain.misfit > SUSPECT_MISFIT || plain.following > SUSPECT_FOLLOWING;
  if (!suspect || points.length < LATE_MIN_POINTS) return { ...found, fits: [steady], widening: plain.widening };
  const changed = [
    penalised(fitRise(swayingModel(points, steady.model), 0), SWAY_PENALTY, plain.widening, points),
    penalised(fitLate(points, span, steady), LATE_PENALTY, plain.widening, points),
  ];
  const fits = [steady, ...changed.filter((fit) => totalMisfit(fit) < totalMisfit(steady))];
  fits.sort((a, b) => totalMisfit(a) - totalMisfit(b));
  const { widening } = qualityOf(fits[0]!, points);
  const least = totalMisfit(fits[0]!);
  return { ...found, widening, fits: fits.filter((fit) => totalMisfit(fit) - least < KEPT_WITHIN * widening) };
}

/** A fit whose freedom is paid for in the scatter the plain model leaves, unless that fits nothing and so sets no price. */
function penalised(fit: RiseFit, penalty: number, plainWidening: number, points: readonly FitPoint[]): RiseFit {
  return { ...fit, penalty: penalty * Math.min(plainWidening, DEAREST * qualityOf(fit, points).widening) };
}

/** The model in which something begins during the hold, at the moment that explains the readings best. */
function fitLate(points: readonly FitPoint[], span: ModelSpan, plain: RiseFit): RiseFit {
  const { atS: lastS } = points[points.length - 1]!;
  const needed = plain.model.contributions.filter((_, index) => index < 2 || plain.best.scaled[index] !== 0);
  const tried = new Map<number, number>();
  const misfitAt = (share: number) => {
    const misfit = tried.get(share) ?? fitRise(trialModel(points, plain.model, needed, share * lastS), 0).best.misfit;
    tried.set(share, misfit);
    return misfit;
  };
  let best = LATE_SHARES.reduce((a, b) => (misfitAt(b) < misfitAt(a) ? b : a), LATE_SHARES[0]!);
  for (let width = LATE_REFINE_FROM; width > LATE_REFINE_TO; width /= 2) {
    const near = [best - width, best + width].filter((share) => share > 0.02 && share < LATEST_SHARE);
    best = near.reduce((a, b) => (misfitAt(b) < misfitAt(a) ? b : a), best);
  }
  return fitRise(lateModel(points, plain.model, span, best * lastS), 0);
}

export function totalMisfit(fit: RiseFit): number {
  return fit.best.misfit + fit.penalty;
}

/** How much worse the claim fits than the best explanation, in widened noise variances: 3.84 is 95 %. */
export function evidenceAgainst({ fits, widening }: Evidence, claim: Claim): number {
  let least = Number.POSITIVE_INFINITY;
  for (const fit of fits) least = Math.min(least, fitClaim(fit, claim).misfit + fit.penalty);
  return Math.max(0, least - totalMisfit(fits[0]!)) / widening;
}

export interface Estimate {
  readonly value: number;
  readonly lowest: Bound;
  readonly highest: Bound;
  readonly fitOfLowest: RiseFit;
  readonly fitOfHighest: RiseFit;
}

/** The leak with all values whose evidence against them is below `allowance`, over all models kept. */
export function estimateLeak(evidence: Evidence, allowance: number): Estimate {
  return profile(evidence, allowance, leakOf, boundLeak);
}

export function estimateLevel(evidence: Evidence, allowance: number): Estimate {
  return profile(evidence, allowance, levelOf, boundLevel);
}

/** The upper end alone, for a limit that must not be passed. */
export function highestLeak(evidence: Evidence, allowance: number): number {
  return outermost(evidence, allowance, boundLeak, 1)[0].value;
}

export function highestLevel(evidence: Evidence, allowance: number): number {
  return outermost(evidence, allowance, boundLevel, 1)[0].value;
}

function profile(evidence: Evidence, allowance: number, readValue: typeof leakOf, boundOf: typeof boundLeak): Estimate {
  const best = evidence.fits[0]!;
  const [lowest, fitOfLowest] = outermost(evidence, allowance, boundOf, -1);
  const [highest, fitOfHighest] = outermost(evidence, allowance, boundOf, 1);
  return { value: readValue(best, best.best), lowest, highest, fitOfLowest, fitOfHighest };
}

/** The bound that lies furthest out over all models kept, each with what its own misfit leaves of the allowance. */
function outermost(
  { fits, widening }: Evidence,
  allowance: number,
  boundOf: typeof boundLeak,
  direction: 1 | -1,
): readonly [Bound, RiseFit] {
  const best = fits[0]!;
  let furthest = [boundOf(best, direction, allowance * widening), best] as const;
  for (const fit of fits.slice(1)) {
    const left = allowance * widening - (totalMisfit(fit) - totalMisfit(best));
    if (left <= 0) continue;
    const found = boundOf(fit, direction, left);
    if (direction * (found.value - furthest[0].value) > 0) furthest = [found, fit];
  }
  return furthest;
}

function qualityOf(fit: RiseFit, points: readonly FitPoint[]) {
  let parameters = 0;
  for (const value of fit.best.scaled) if (value !== 0) parameters += 1;
  const degrees = Math.max(points.length - parameters, 0);
  const misfit = (ASSUMED_DEGREES + fit.best.misfit) / (ASSUMED_DEGREES + degrees);
  const curve = curveOf(fit, fit.best);
  let square = 1e-9;
  let product = 0;
  let before = 0;
  for (const point of points) {
    const off = (point.pressurePa - curve(point)) / point.sigmaPa;
    square += off ** 2;
    product += off * before;
    before = off;
  }
  const following = product / square;
  const kept = Math.min(Math.max(following, 0), 0.6);
  const shared = points.length >= 10 ? (1 + kept) / (1 - kept) : 1;
  return { misfit, following, widening: Math.max(1, misfit * shared) };
}
