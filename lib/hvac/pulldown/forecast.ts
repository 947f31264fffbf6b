import { beliefFor } from "./belief";
import { cloudAbout, costOf, fitPlant, isSame, type PlantFit } from "./fit-plant";
import { advance, type Plant, type PlantState, shownPa } from "./plant";
import type { PulldownRecord } from "./record";
import { samplePlants } from "./sample-plants";
import { loadStarts, rigStarts, type Starts } from "./starts";
import type { PulldownTrace } from "./trace";

export const HORIZON_S = 4 * 3600;

/** One plant that could have made the readings, and when it would bring the gauge to the target. */
export interface Prospect {
  readonly plant: Plant;
  readonly now: PlantState;
  /** Seconds from the last reading; null: not within the horizon. */
  readonly etaS: number | null;
}

/** Plants drawn as often as the readings make them likely. */
export function forecast(record: PulldownRecord, trace: PulldownTrace): readonly Prospect[] {
  const belief = beliefFor(record, trace);
  const residual = new Float64Array(trace.timeS.length);
  const found: PlantFit[] = [];
  const search = (rows: readonly Starts[]) => {
    for (const row of rows) {
      const start = likeliest(row, (x, limit) => costOf(belief, trace, x, residual, limit));
      const fit = fitPlant(belief, trace, start, found);
      if (fit !== null) found.push(fit);
    }
    found.sort((a, b) => a.cost - b.cost);
  };
  search(rigStarts(belief, trace));
  search(loadStarts(belief, trace, found[0]!.unknowns));
  const fits = distinct(found).map((fit) => cloudAbout(belief, trace, fit));
  costOf(belief, trace, fits[0]!.unknowns, residual);
  const weighed = { ...trace, spread: trace.spread.map((spread) => spread * misfit(residual)) };
  return samplePlants(belief, weighed, fits).map((x, draw) => {
    const plant = belief.plantAt(x);
    const now = { pressurePa: 0, waterLeft: 0, chilled: 0, atS: 0 };
    costOf(belief, weighed, x, residual, undefined, now);
    advance(plant, now, trace.lastS);
    return { plant, now, etaS: etaS(record, trace, plant, { ...now }, ((draw + 1) * GOLDEN) % 1) };
  });
}

function likeliest(row: Starts, cost: (x: Float64Array, limit: number) => number): Float64Array {
  let best = row[0]!;
  let least = Number.POSITIVE_INFINITY;
  for (const start of row) {
    const itsCost = cost(start, least);
    if (itsCost < least) {
      best = start;
      least = itsCost;
    }
  }
  return best;
}

/** Any run of its multiples is spread evenly over one turn. */
const GOLDEN = 0.618034;

/** How far the readings lie from the best plant, in the spreads allowed: a plant that fits well may be held to it. */
function misfit(residual: Float64Array): number {
  const doubt = 8;
  let sum = doubt;
  for (const away of residual) sum += away * away;
  return Math.min(Math.max(Math.sqrt(sum / (residual.length + doubt)), 0.7), 3);
}

/** `fits` by cost. */
function distinct(fits: readonly PlantFit[]): readonly PlantFit[] {
  const kept: PlantFit[] = [];
  for (const fit of fits) {
    if (fit.cost > fits[0]!.cost + 6) break;
    if (!kept.some((other) => isSame(fit.unknowns, other.unknowns))) kept.push(fit);
  }
  return kept;
}

/** Share of the readings' scatter that counts: whether it is the gauge's or the plant's is not known. */
const SCATTER_SHARE = 0.7;
/** Seconds until the next reading shows it, as a share of the time between readings. */
const SEEN_AFTER = 0.3;

/** Until the gauge shows the target, which its scatter does before the pressure is there, the sooner the slower it falls. */
export function etaS(
  record: PulldownRecord,
  { everyS, readingSpread }: Pick<PulldownTrace, "everyS" | "readingSpread">,
  plant: Plant,
  state: PlantState,
  luck = 0.5,
): number | null {
  const target = Math.log(record.targetAbsPa + 0.5 * record.gauge.resolutionPa);
  const scatter = Math.max(SCATTER_SHARE * readingSpread, 1e-4);
  const startS = state.atS;
  let before = Math.log(shownPa(plant, state.pressurePa));
  let stepS = Math.max(1, 0.25 * everyS);
  while (state.atS - startS < HORIZON_S) {
    const fromS = state.atS;
    advance(plant, state, Math.min(fromS + stepS, startS + HORIZON_S));
    const now = Math.log(shownPa(plant, state.pressurePa));
    if (now < target + 5 * scatter) {
      const fallPerReading = Math.max(((before - now) / (state.atS - fromS)) * everyS, 1e-9);
      const aimed = target + scatter * scattersAhead(fallPerReading / scatter, luck);
      if (now <= aimed) {
        const passed = before <= aimed ? 0 : (before - aimed) / (before - now);
        return fromS - startS + (state.atS - fromS) * passed + SEEN_AFTER * everyS;
      }
    }
    before = now;
    stepS = Math.max(1, 0.1 * (state.atS - startS));
  }
  return null;
}

/**
 * How many scatters above the target a steady fall still is when some reading has dipped to it with the chance `luck`:
 * where the tail of the normal curve, summed over the readings so far, is -log(1 - luck). Closed form, within 0.1.
 */
function scattersAhead(fallPerReading: number, luck: number): number {
  const slow = -Math.log((fallPerReading * -Math.log(1 - luck)) / 0.4);
  return Math.sqrt(0.9 + 2 * Math.min(Math.max(slow, 0), 7)) - Math.sqrt(0.9);
}
