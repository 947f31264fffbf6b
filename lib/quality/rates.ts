import { type Interval, type Tally, Z95 } from "./interval";

/** A share with its interval; null where there are no jobs. */
export interface Rate extends Tally {
  readonly rate: number | null;
  readonly interval95: Interval | null;
}

export function estimateRate({ jobs, callbacks }: Tally): Rate {
  if (jobs === 0) return { jobs, callbacks, rate: null, interval95: null };
  return { jobs, callbacks, rate: callbacks / jobs, interval95: wilsonInterval({ jobs, callbacks }) };
}

/**
 * Score interval of a share, without continuity correction; exactly 0 and 1 at the ends.
 * @source Wilson, J. Am. Stat. Assoc. 22 (1927) 209; Newcombe, Stat. Med. 17 (1998) 857, method 3
 */
export function wilsonInterval({ jobs, callbacks }: Tally): Interval {
  const square = Z95 * Z95;
  const width = Z95 * Math.sqrt(square + (4 * callbacks * (jobs - callbacks)) / jobs);
  const divisor = 2 * (jobs + square);
  return [
    callbacks === 0 ? 0 : (2 * callbacks + square - width) / divisor,
    callbacks === jobs ? 1 : (2 * callbacks + square + width) / divisor,
  ];
}
