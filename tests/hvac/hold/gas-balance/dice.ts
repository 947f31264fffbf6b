/** Reproducible chance: a permuted congruential generator with 32 bits of output. */
export class Dice {
  private state: bigint;
  constructor(seed: number) {
    this.state = (BigInt(seed) * 0x9e3779b97f4a7c15n + 0x632be59bd9b4e019n) & MASK;
    this.next();
  }
  private next(): number {
    const old = this.state;
    this.state = (old * 6364136223846793005n + 1442695040888963407n) & MASK;
    const mixed = Number((((old >> 18n) ^ old) >> 27n) & 0xffffffffn);
    const turn = Number(old >> 59n);
    return ((mixed >>> turn) | (mixed << (-turn & 31))) >>> 0;
  }
  between(low: number, high: number): number {
    return low + ((high - low) * this.next()) / 2 ** 32;
  }
  /** As many draws below twice `low` as just below `high`, on a scale of ratios. */
  scaled(low: number, high: number): number {
    return Math.exp(this.between(Math.log(low), Math.log(high)));
  }
  happens(chance: number): boolean {
    return this.between(0, 1) < chance;
  }
  oneOf<T>(items: readonly T[]): T {
    return items[Math.floor(this.between(0, items.length))]!;
  }
  /** Unit normal, by the polar method. */
  normal(): number {
    for (;;) {
      const [x, y] = [this.between(-1, 1), this.between(-1, 1)];
      const square = x * x + y * y;
      if (square > 0 && square < 1) return x * Math.sqrt((-2 * Math.log(square)) / square);
    }
  }
}

const MASK = (1n << 64n) - 1n;
