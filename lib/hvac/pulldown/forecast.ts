import { type Belief, beliefFor, COUNT } from "./belief";
import { costOf, departures, fitPlant, type PlantFit } from "./fit-plant";
import { advance, type Plant, type PlantState, shownPa } from "./plant";
import type { PulldownRecord } from "./record";
import type { PulldownTrace } from "./trace";

export const HORIZON_S = 4 * 3600;

/** One plant that could have made the readings, and when it would bring the gauge to the target. */
export interface Prospect {
  readonly plant: Plant;
  readonly now: PlantState;
  readonly weight: number;
  /** Seconds from the last reading; null: not within the horizon. */
  readonly etaS: number | null;
}

const DRAWS = 90;
/** Draws reach further than the fit alone allows, because a real plant is not a lumped one. */
const REACH = 1.45;
/** Weights are taken to this power, so that a few lucky draws do not carry the answer. */
const TEMPER = 0.5;

/** Plants drawn as often as the readings make them likely. */
export function forecast(record: PulldownRecord, trace: PulldownTrace): readonly Prospect[] {
  const belief = beliefFor(record, trace);
  const fits = distinct(belief.starts.map((start) => fitPlant(belief, trace, start)));
  const least = Math.min(...fits.map((fit) => fit.cost - fit.logVolume));
  const shares = fits.map((fit) => Math.exp(least - fit.cost + fit.logVolume));
  const total = shares.reduce((sum, share) => sum + share, 0);
  const random = evenly();
  const prospects: Prospect[] = [];
  const residual = new Float64Array(trace.timeS.length);
  for (const [index, fit] of fits.entries()) {
    const share = shares[index]! / total;
    const draws = Math.round(DRAWS * share);
    if (draws === 0) continue;
    const drawn: { x: Float64Array; log: number }[] = [];
    for (let draw = 0; draw < draws; draw++) drawn.push(drawPlant(belief, trace, fit, random, residual, draw === 0));
    const most = Math.max(...drawn.map((item) => item.log));
    const weights = drawn.map((item) => Math.exp(Math.max(item.log - most, -20)));
    const sum = weights.reduce((a, b) => a + b, 0);
    for (const [place, item] of drawn.entries()) {
      const weight = (share * weights[place]!) / sum;
      if (weight < 1e-5) continue;
      const now = departures(belief, trace, item.x, residual);
      const plant = belief.plantAt(item.x);
      advance(plant, now, trace.lastS);
      prospects.push({ plant, now, weight, etaS: etaS(record, trace, plant, { ...now }) });
    }
  }
  return prospects;
}

/** A draw about the best fit; its weight corrects the shape that the normal curve misses, tempered against luck. */
function drawPlant(
  belief: Belief,
  trace: PulldownTrace,
  fit: PlantFit,
  random: () => number,
  residual: Float64Array,
  centre: boolean,
) {
  const z = new Float64Array(COUNT);
  let proposal = 0;
  if (!centre)
    for (let index = 0; index < COUNT; index++) {
      const deviate = normal(random);
      z[index] = REACH * deviate;
      proposal += 0.5 * deviate ** 2;
    }
  const x = fit.unknowns.map((value, i) => {
    let moved = value;
    for (let k = 0; k < COUNT; k++) moved += fit.factor[i * COUNT + k]! * z[k]!;
    return moved;
  });
  departures(belief, trace, x, residual);
  const cost = costOf(belief, x, residual);
  return { x, log: TEMPER * (proposal - (cost - fit.cost) / REACH ** 2) };
}

function distinct(fits: readonly PlantFit[]): readonly PlantFit[] {
  const sorted = [...fits].sort((a, b) => a.cost - b.cost);
  const kept: PlantFit[] = [];
  for (const fit of sorted) {
    if (fit.cost > sorted[0]!.cost + 6) break;
    const same = kept.some((other) =>
      other.unknowns.every((value, index) => Math.abs(value - fit.unknowns[index]!) < 0.35),
    );
    if (!same) kept.push(fit);
  }
  return kept;
}

/** The plant says the shape, the last readings say where we stand: the target is shifted by what they are apart. */
function etaS(record: PulldownRecord, trace: PulldownTrace, plant: Plant, state: PlantState): number | null {
  const last = Math.log(shownPa(plant, state.pressurePa));
  const aimed =
    Math.log(record.targetAbsPa + 0.5 * record.gauge.resolutionPa) + 1.2 * Math.min(trace.readingSpread, 0.03);
  let before = last;
  if (before <= aimed) return 1;
  const startS = state.atS;
  let stepS = 1;
  while (state.atS - startS < HORIZON_S) {
    const fromS = state.atS;
    advance(plant, state, Math.min(fromS + stepS, startS + HORIZON_S));
    const now = Math.log(shownPa(plant, state.pressurePa));
    if (now <= aimed) return fromS - startS + ((state.atS - fromS) * (before - aimed)) / (before - now);
    before = now;
    stepS = Math.max(1, 0.12 * (state.atS - startS));
  }
  return null;
}

function evenly(): () => number {
  let state = 0x1234567;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
}

function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
}
