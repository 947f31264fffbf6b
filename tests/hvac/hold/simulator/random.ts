/** Reproducible draws for the simulators: mulberry32. */
export interface Draw {
  uniform(lo: number, hi: number): number;
  logUniform(lo: number, hi: number): number;
  normal(): number;
  chance(fraction: number): boolean;
  pick<T>(items: readonly T[]): T;
}

export function drawFrom(seed: number): Draw {
  let state = (seed * 2654435761) >>> 0;
  function next(): number {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  }
  return {
    uniform: (lo, hi) => lo + (hi - lo) * next(),
    logUniform: (lo, hi) => lo * (hi / lo) ** next(),
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    chance: (fraction) => next() < fraction,
    pick: (items) => items[Math.floor(next() * items.length)]!,
  };
}
