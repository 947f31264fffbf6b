/** Numbers in [0, 1) that are the same on every run: a linear congruential generator with mixed output. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x45d9f3b);
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x45d9f3b);
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32;
  };
}

export function drawCount(random: () => number, trials: number, probability: number): number {
  let count = 0;
  for (let trial = 0; trial < trials; trial++) if (random() < probability) count++;
  return count;
}
