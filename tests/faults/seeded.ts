/** Numbers that depend on nothing but their seed: the same run can be had again. */
export class Seeded {
  #state: number;

  constructor(readonly seed: number) {
    this.#state = (Math.imul(seed, 0x9e3779b1) ^ 0x6a09e667) >>> 0;
  }

  /** From 0 to just under 1. @source "mulberry32", a public-domain generator of 32 bits of state (from memory) */
  fraction(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = this.#state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  }

  /** A whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.fraction() * (high - low + 1));
  }

  chance(fraction: number): boolean {
    return this.fraction() < fraction;
  }

  pick<T>(items: readonly T[]): T {
    return items[Math.floor(this.fraction() * items.length)]!;
  }

  /** One of the names, each as often as its weight says. */
  weighted<K extends string>(weights: Readonly<Record<K, number>>): K {
    const entries = Object.entries(weights) as [K, number][];
    let left = this.fraction() * entries.reduce((sum, [, weight]) => sum + weight, 0);
    for (const [name, weight] of entries) {
      left -= weight;
      if (left < 0) return name;
    }
    return entries.at(-1)![0];
  }
}
