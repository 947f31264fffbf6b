/**
 * Repeatable random numbers: the same seed gives the same day. Small fast counter generator, 128 bits of state.
 * @source C. Doty-Humphrey's "sfc32" (PractRand, public domain), constants as published
 */
export class RandomNumbers {
  private a: number;
  private b: number;
  private c: number;
  private counter = 1;

  constructor(seed: number) {
    this.a = 0x9e3779b9 ^ seed;
    this.b = 0x243f6a88 ^ (seed * 2654435761);
    this.c = 0xb7e15162;
    for (let i = 0; i < 12; i++) this.bits();
  }

  bits(): number {
    const sum = (((this.a + this.b) | 0) + this.counter) | 0;
    this.counter = (this.counter + 1) | 0;
    this.a = this.b ^ (this.b >>> 9);
    this.b = (this.c + (this.c << 3)) | 0;
    this.c = (((this.c << 21) | (this.c >>> 11)) + sum) | 0;
    return sum;
  }

  /** At least 0, below 1. */
  fraction(): number {
    return (this.bits() >>> 0) / 4294967296;
  }

  /** A whole number, at least 0, below `count`. */
  below(count: number): number {
    return Math.floor(this.fraction() * count);
  }
}
