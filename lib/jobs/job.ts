import type { CompanyId } from "@/lib/ids";

/** One piece of work as a process holds it. */
export interface HeldJob {
  readonly id: string;
  readonly company: CompanyId;
  readonly kind: string;
  /** What it is about, an id: the same work asked for twice is one job. */
  readonly key: string;
  readonly isDaily: boolean;
  /** 1 the first time. */
  readonly attempts: number;
  readonly hold: string;
}

/**
 * Does one job. A process may die half-way and another does it again: it must come out right when begun twice.
 * A throw means again later; the answer "put-off" as well, for what is expected to fail now and then.
 */
export type Work = (job: Pick<HeldJob, "company" | "key" | "attempts">) => Promise<undefined | "put-off">;

export const MOST_ATTEMPTS = 10;
const FIRST_WAIT_S = 30;
const LONGEST_WAIT_S = 6 * 3600;

/** Seconds until the next attempt: twice as long each time, from half a minute to six hours; null when it is given up. */
export function waitAfter(attempts: number): number | null {
  if (attempts >= MOST_ATTEMPTS) return null;
  return Math.min(LONGEST_WAIT_S, FIRST_WAIT_S * 2 ** (attempts - 1));
}
