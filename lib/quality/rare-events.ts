/** The chance beyond either limit, that of three standard deviations of a normal distribution. */
const BEYOND = 0.0013498980316300933;
const FEWEST_GAPS = 10;

export interface RareEventChart {
  readonly gaps: readonly {
    readonly gap: number;
    /** Sooner than chance explains, later than it explains, or neither. */
    readonly signal: "sooner" | "later" | null;
  }[];
  readonly centre: number;
  readonly limits: readonly [number, number];
  /** Fewer than ten gaps: the limits rest on too little to judge by. */
  readonly provisional: boolean;
}

/**
 * Chart of the jobs that went well between one callback and the next; null without a single gap.
 *
 * Probability limits of the geometric distribution, centre its median. Unlike limits of three deviations the lower one
 * is not always zero, so a change for the worse can show.
 * @param gaps whole numbers of good jobs between consecutive callbacks
 * @source Benneyan, Health Care Manag. Sci. 4 (2001) 305 (g chart; from memory)
 */
export function chartJobsBetween(gaps: readonly number[]): RareEventChart | null {
  if (gaps.length === 0) return null;
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  const logGood = Math.log(mean / (mean + 1));
  const quantile = (level: number) => (mean === 0 ? 0 : Math.max(0, Math.ceil(Math.log1p(-level) / logGood - 1)));
  return chart(gaps, quantile);
}

/**
 * Chart of the days between one callback and the next; null without a gap or where all fell on one day.
 * Needs about the same number of jobs a day throughout; where that changes, count jobs instead.
 * @source probability limits of the exponential distribution: Montgomery, Introduction to Statistical Quality Control,
 * section 7.3.5 (t chart; from memory)
 */
export function chartDaysBetween(gaps: readonly number[]): RareEventChart | null {
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  if (!(mean > 0)) return null;
  return chart(gaps, (level) => -mean * Math.log1p(-level));
}

function chart(gaps: readonly number[], quantile: (level: number) => number): RareEventChart {
  const limits = [quantile(BEYOND), quantile(1 - BEYOND)] as const;
  return {
    gaps: gaps.map((gap) => ({ gap, signal: gap < limits[0] ? "sooner" : gap > limits[1] ? "later" : null })),
    centre: quantile(0.5),
    limits,
    provisional: gaps.length < FEWEST_GAPS,
  };
}
