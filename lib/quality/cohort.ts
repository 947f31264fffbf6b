export const STRENGTHS = ["strong", "fair", "weak", "none"] as const;
export type Strength = (typeof STRENGTHS)[number];

/** A closed job as the figures need it; days are whole numbers on one calendar. */
export interface CohortJob {
  readonly id: string;
  readonly closedDay: number;
  readonly strength: Strength;
  readonly technician: string;
  /** What jobs are alike in, such as kind of job and age of unit. */
  readonly stratum: Readonly<Record<string, string>>;
  /** Day of the confirmed callback, never before closing. */
  readonly callbackDay: number | null;
}

export interface Cohort {
  readonly todayDay: number;
  readonly windowDays: number;
  readonly jobs: readonly CohortJob[];
}
