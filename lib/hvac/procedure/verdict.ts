/** How a judgement bears on its step: proven, refuted, or neither. */
export type Outcome = "passed" | "failed" | "unproven";

export interface VerdictReason {
  readonly code: string;
  /** One plain sentence a technician can act on. */
  readonly text: string;
}

/** What a judge says of one record, whichever step it belongs to. */
export interface StepVerdict {
  readonly outcome: Outcome;
  /** In the judge's own words: "wet", "tight", "reached". */
  readonly verdict: string;
  readonly reasons: readonly VerdictReason[];
  /** Numbers worth keeping with the verdict, each named with its unit. */
  readonly figures: Readonly<Record<string, number>>;
  readonly rulesVersion: string;
}
