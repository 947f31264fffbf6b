import { type Belief, COUNT, LOADS } from "./belief";
import { costOf, type PlantCloud } from "./fit-plant";
import type { PulldownTrace } from "./trace";

const WALKERS = 56;
const GENERATIONS = 24;
const KEPT_EVERY = 4;

/** Plants as likely as readings and belief make them: a crowd drawn about the fits, then walking among one another. */
export function samplePlants(
  belief: Belief,
  trace: PulldownTrace,
  fits: readonly PlantCloud[],
): readonly Float64Array[] {
  const random = evenly();
  const residual = new Float64Array(trace.timeS.length);
  const cost = (x: Float64Array, limit?: number) => costOf(belief, trace, x, residual, limit);
  const walkers = drawnAbout(fits, random, cost);
  const kept: Float64Array[] = [];
  for (let generation = 1; generation <= GENERATIONS; generation++) {
    for (let place = 0; place < WALKERS; place++) {
      const x = stepFrom(walkers, place, belief, random);
      const limit = walkers[place]!.cost - Math.log(random());
      const tried = { x, cost: cost(x, limit) };
      if (tried.cost < limit) walkers[place] = tried;
    }
    if (generation > GENERATIONS / 3 && generation % KEPT_EVERY === 0) kept.push(...walkers.map(({ x }) => x));
  }
  return kept;
}

interface Walker {
  readonly x: Float64Array;
  readonly cost: number;
}

/** Each fit draws as many as its evidence deserves; of all drawn, the likely ones go on. */
function drawnAbout(fits: readonly PlantCloud[], random: () => number, cost: (x: Float64Array) => number): Walker[] {
  const evidence = fits.map((fit) => fit.logVolume - fit.cost);
  const shares = inShares(evidence);
  const drawn: Walker[] = [];
  const logs: number[] = [];
  for (const [index, fit] of fits.entries()) {
    for (let draw = Math.round(3 * WALKERS * shares[index]!); draw > 0; draw--) {
      const x = Float64Array.from(fit.unknowns);
      let proposed = 0;
      for (let k = 0; k < COUNT; k++) {
        const deviate = normal(random);
        proposed += 0.5 * deviate ** 2;
        for (let i = 0; i < COUNT; i++) x[i]! += fit.factor[i * COUNT + k]! * deviate;
      }
      const walker = { x, cost: cost(x) };
      drawn.push(walker);
      logs.push(proposed + fit.cost - walker.cost);
    }
  }
  const chances = inShares(logs);
  let index = 0;
  let passed = chances[0]!;
  return Array.from({ length: WALKERS }, (_, place) => {
    while (passed * WALKERS < place + 0.5 && index < drawn.length - 1) passed += chances[++index]!;
    return drawn[index]!;
  });
}

function inShares(logs: readonly number[]): number[] {
  const most = Math.max(...logs);
  const weights = logs.map((log) => (log >= most - 50 ? Math.exp(log - most) : 0));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

/** A symmetric step: sources change shares, one unknown is believed anew, or some move as two others are apart. */
function stepFrom(walkers: readonly Walker[], place: number, belief: Belief, random: () => number): Float64Array {
  const among = (count: number) => Math.floor(random() * count);
  const x = Float64Array.from(walkers[place]!.x);
  const kind = random();
  if (kind < 0.25) {
    changeShares(x, LOADS[among(LOADS.length)]!, LOADS[among(LOADS.length)]!, belief, random);
    return x;
  }
  const anew = kind < 0.4 ? among(COUNT) : -1;
  const one = walkers[among(WALKERS)]!.x;
  const other = walkers[among(WALKERS)]!.x;
  const share = [0.15, 0.4, 1][among(3)]!;
  const reach = random() < 0.15 ? 1 : (1.7 / Math.sqrt(Math.max(1, share * COUNT))) * (0.3 + random());
  for (let i = 0; i < COUNT; i++) {
    const spread = belief.spread[i]!;
    if (i === anew) x[i] = belief.centre[i]! + spread * normal(random);
    else if (anew < 0 && random() < share) x[i]! += reach * (one[i]! - other[i]!) + 0.01 * spread * normal(random);
  }
  return x;
}

/** What two sources bring in together stays, their shares of it change: plants that a plateau alone cannot tell apart. */
function changeShares(x: Float64Array, i: number, j: number, belief: Belief, random: () => number): void {
  if (i === j) return;
  const logSpeed = Math.log(belief.plantAt(x).speedM3PerS);
  const iUnit = i === LOADS[0] ? logSpeed : 0;
  const jUnit = j === LOADS[0] ? logSpeed : 0;
  const apart = x[i]! + iUnit - x[j]! - jUnit;
  const both = x[i]! + iUnit + Math.log1p(Math.exp(-apart));
  const split = apart + 2.5 * normal(random);
  x[i] = both - Math.log1p(Math.exp(-split)) - iUnit;
  x[j] = both - Math.log1p(Math.exp(split)) - jUnit;
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
