/** Lower and upper end. */
export type Interval = readonly [number, number];

/** The normal deviate of a two-sided 95 % interval. */
export const Z95 = 1.959963984540054;

/** Events among jobs: how many of how many. */
export interface Tally {
  readonly jobs: number;
  readonly callbacks: number;
}
