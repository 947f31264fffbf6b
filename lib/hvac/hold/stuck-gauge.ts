import type { Cell } from "./cell";
import type { ReadingLog } from "./cells";
import type { FitPoint } from "./fit-points";
import type { HoldTerms } from "./record";

const SETTLED_S = 60;
const STUCK_CHANCE = 2e-3;
/**
 * One value for so much of the hold is no proof that the gauge was alive, in whatever way it came to rest: less where its
 * steps are fine beside what the allowed rise brings meanwhile, so that weather or a tolerable leak should have moved it.
 * [own choice: a pass must have been seen, so a sound circuit under a gauge without any noise is held back too]
 */
const STILL_SHARE = 0.45;
const FINE_STILL_SHARE = 0.25;
const FINE_STEP_SHARE = 0.05;
const STILL_READINGS = 4;
/** A rise that stops dead: so many steps of the gauge are missing from it. */
const STOPPED_SHARE = 0.25;
const STOPPED_READINGS = 6;
const STOPPED_STEPS = 3;
/** As many, where the last step came faster than the allowed rise makes it. */
const STOPPED_FAST_STEPS = 1.5;
/** Steps make a slope uncertain: this share of the allowed rise already counts as reaching it. */
const STOPPED_RATE_SHARE = 0.6;
const STRETCH_STEPS = 4;
const WIDER_STRETCHES = [2, 3, 4] as const;
const STRETCH_SIGMAS = 12;
const MOVING_SHARE = 0.8;
const SHORTEST_STRETCH = 0.15;
const SHORTER = 0.8;
/** So many readings that move show a live gauge. */
const LIVE_READINGS = 10;
const LIVE_S = 75;
const LIVE_STEPS = 2;
const LIVE_TURNS = 4;
const SWEPT_STEPS = 3;
const LEAVES_PER_SWING = 4;
/** Restlessness learnt in steps finer than this many to one of now says nothing of now. */
const LEARNT_IN_STEPS = 8;
/** From so many stretches of time on scatter is known, and so much of it is certain. */
const SCATTER_CELLS = 4;
const SCATTER_WAVERS = 6;
const SCATTER_CERTAIN = 0.85;
/** Half a step in scatters that evenly spread noise still crosses: root 3. */
const EVENLY_SPREAD = Math.sqrt(3);
/** A gauge that stands for less of the hold than this hides nothing. */
const STUCK_SHARE = 0.15;
const STUCK_FROM_START_S = 120;

/**
 * The reading stands still: throughout, or although noise kept it restless before, or although it was rising before
 * too fast to come to rest so soon, or before it had shown that it moves, or for so long that nothing shows it alive.
 * A dry circuit under a coarse or a quiet gauge also comes to rest, but by and by; what stands for long cannot be told
 * from a gauge that is stuck.
 */
export function isStuck(
  log: ReadingLog,
  points: readonly FitPoint[],
  lastS: number,
  terms: HoldTerms,
  tooCoarse: boolean,
): boolean {
  const { criteria } = terms;
  const { run, believedCount } = log;
  const heldS = lastS - run.fromS;
  const readingsBefore = believedCount - run.count;
  const { stepPa } = points[points.length - 1]!;
  if (run.count < STILL_READINGS) return false;
  if (readingsBefore === 0) return heldS > Math.min(STUCK_FROM_START_S, criteria.holdS / 3);
  if (tooCoarse) return false;
  if (heldS > stillnessShown(criteria, stepPa, heldS) * criteria.holdS) return true;
  if (run.count < STOPPED_READINGS) return false;
  if (
    heldS > STUCK_SHARE * criteria.holdS &&
    run.count * Math.log1p(-leavingChance(log, points, terms.gauge.resolutionPa)) < Math.log(STUCK_CHANCE)
  )
    return true;
  if (heldS < STOPPED_SHARE * criteria.holdS) return false;
  const allowedPaPerS = criteria.maxSteadyRisePaPerS;
  if (readingsBefore < LIVE_READINGS && run.cameAtPaPerS > STOPPED_RATE_SHARE * allowedPaPerS) return true;
  if (!isSeenAlive(log, stepPa, readingsBefore, allowedPaPerS)) return run.count > LIVE_READINGS;
  return stopsDead(points, run, heldS, allowedPaPerS);
}

function stillnessShown({ maxSteadyRisePaPerS }: HoldTerms["criteria"], stepPa: number, heldS: number): number {
  return stepPa < FINE_STEP_SHARE * maxSteadyRisePaPerS * heldS ? FINE_STILL_SHARE : STILL_SHARE;
}

/**
 * Whether the gauge moved before it came to rest: turned to and fro, or had time to show a leak at the limit; with few
 * readings, time once gas and gauge had settled.
 */
function isSeenAlive(log: ReadingLog, stepPa: number, readings: number, allowedPaPerS: number): boolean {
  const { fromS } = log.run;
  if (fromS < LIVE_S) return false;
  if (readings < LIVE_READINGS) return allowedPaPerS * (fromS - SETTLED_S) > LIVE_STEPS * stepPa;
  return allowedPaPerS * fromS > LIVE_STEPS * stepPa || sum(log.cells, "turns") >= LIVE_TURNS;
}

/**
 * The least chance that a live gauge moves from one reading to the next, from how it moved before it came to rest.
 *
 * Turning to and fro between two values shows little noise, if the pressure lies between them. Swept over several
 * steps, the share of readings that turn back is the scatter in steps over root pi / 2, and a reading at the middle
 * of its step leaves it with the normal chance of half a step. To swing by more takes scatter of half a step at least.
 */
function restlessness({ cells, run, restless, moveSteps }: ReadingLog, stepPa: number, resolutionPa: number): number {
  const swinging = moveSteps * resolutionPa * LEARNT_IN_STEPS > stepPa ? Math.min(0.5, LEAVES_PER_SWING * restless) : 0;
  const last = cells[cells.length - 1]!;
  const ended = cells.filter((cell) => cell.decade === last.decade && cell.sumS / cell.count < run.fromS);
  const swept = ended.findLastIndex(({ sumPa, count }) => Math.abs(run.valuePa - sumPa / count) > SWEPT_STEPS * stepPa);
  if (swept < 0) return swinging;
  const before = ended.slice(swept);
  const turning = sum(before, "turns") / (sum(before, "count") + LIVE_READINGS / 2);
  return Math.max(swinging, 0.5 * Math.exp(-((0.4 / Math.max(turning, 0.01)) ** 2)));
}

function leavingChance(log: ReadingLog, points: readonly FitPoint[], resolutionPa: number): number {
  const { stepPa } = points[points.length - 1]!;
  return Math.max(restlessness(log, stepPa, resolutionPa), chanceByScatter(log, points, stepPa));
}

/**
 * The least chance of leaving the middle of a step of now, by the scatter of the readings before, whatever their steps
 * were then: the tail of the normal curve. Scatter too small to leave it at all were it evenly spread counts for nothing.
 */
function chanceByScatter({ cells, run }: ReadingLog, points: readonly FitPoint[], stepPa: number): number {
  const before = points.flatMap(({ atS, stepPa: thenPa }, index) => {
    const cell = cells[index]!;
    return cell.bends > 0 && atS > run.fromS / 3 && atS <= run.fromS ? [{ cell, thenPa }] : [];
  });
  const finestPa = Math.min(...before.map(({ thenPa }) => thenPa));
  const shown = before.filter(({ thenPa }) => thenPa < 1.5 * finestPa);
  const wavers = shown.reduce((total, { cell }) => total + cell.wavers, 0);
  if (shown.length < SCATTER_CELLS || wavers < SCATTER_WAVERS) return 0;
  const variances = shown
    .map(({ cell, thenPa }) => cell.sumBendPa2 / cell.bends - thenPa ** 2 / 6)
    .sort((a, b) => a - b);
  const scatterPa = SCATTER_CERTAIN * Math.sqrt(Math.max(0, variances[variances.length >> 1]!));
  const away = stepPa / 2 / Math.max(scatterPa, 1e-9);
  if (away > EVENLY_SPREAD) return 0;
  return (Math.sqrt(2 / Math.PI) * Math.max(away, 0.7) * Math.exp(-0.5 * away ** 2)) / (1 + Math.max(away, 0.7) ** 2);
}

function sum(cells: readonly Cell[], key: "turns" | "count"): number {
  return cells.reduce((total, cell) => total + cell[key], 0);
}

/**
 * Whether the pressure rose and then stood, although it should have gone on by steps the gauge would have shown: over
 * equal stretches of time a fade rises by a constant ratio, a leak by the same again. What rose at about the limit is
 * taken as it looks; what rose slower must be missing for certain, however its last steps were rounded.
 */
function stopsDead(points: readonly FitPoint[], run: ReadingLog["run"], heldS: number, allowedPaPerS: number): boolean {
  const { fromS, cameAtPaPerS } = run;
  const { stepPa } = points[points.length - 1]!;
  const moving = points.findLast(({ atS }) => atS < MOVING_SHARE * fromS) ?? points[0]!;
  const shownPa = Math.max(STRETCH_STEPS * stepPa, STRETCH_SIGMAS * moving.sigmaPa);
  const { risePa, beforePa, stretchS } = lastStretches(points, run, shownPa);
  const missingPa = stillToCome(risePa, beforePa, heldS / stretchS);
  if (risePa < 1.5 * stepPa) return false;
  if (risePa > STOPPED_RATE_SHARE * allowedPaPerS * stretchS) {
    const steps = cameAtPaPerS > 1.01 * allowedPaPerS ? STOPPED_FAST_STEPS : STOPPED_STEPS;
    if (missingPa > steps * stepPa) return true;
  }
  return WIDER_STRETCHES.some((times) => {
    const wide = lastStretches(points, run, times * shownPa);
    const leastPa = wide.risePa - stepPa / 2;
    const beforePa = wide.beforePa + stepPa / 2;
    return leastPa < beforePa && stillToCome(leastPa, beforePa, heldS / wide.stretchS) > STOPPED_STEPS * stepPa;
  });
}

/** The last two stretches of equal length over which it rose by this much, at most the whole time before it stood. */
function lastStretches(points: readonly FitPoint[], { fromS, valuePa }: ReadingLog["run"], shownPa: number) {
  let stretchS = fromS;
  while (stretchS > SHORTEST_STRETCH * fromS && valuePa - pressureBetween(points, fromS - SHORTER * stretchS) > shownPa)
    stretchS *= SHORTER;
  stretchS /= 2;
  const middlePa = pressureBetween(points, fromS - stretchS);
  return { risePa: valuePa - middlePa, beforePa: middlePa - pressureBetween(points, fromS - 2 * stretchS), stretchS };
}

/** What a fade that rose so over the last two stretches rises by over so many more. */
function stillToCome(risePa: number, beforePa: number, stretches: number): number {
  if (risePa >= beforePa) return risePa * stretches;
  const ratio = Math.max(0, risePa) / beforePa;
  return (risePa * ratio * (1 - ratio ** stretches)) / (1 - ratio);
}

function pressureBetween(points: readonly FitPoint[], atS: number): number {
  const next = points.findIndex((point) => point.atS > atS);
  if (next <= 0) return points[next < 0 ? points.length - 1 : 0]!.pressurePa;
  const [from, to] = [points[next - 1]!, points[next]!];
  return from.pressurePa + ((to.pressurePa - from.pressurePa) * (atS - from.atS)) / (to.atS - from.atS);
}
