export type HoldVerdict = "dry-and-tight" | "wet" | "leaking" | "wet-and-leaking" | "unproven";

export type HoldReasonCode =
  // what a failing or passing verdict rests on
  | "rise-fades"
  | "level-holds"
  | "steady-rise-above-limit"
  | "late-leak"
  | "level-above-limit"
  | "near-water-line"
  // what keeps a record from proving anything
  | "too-few-readings"
  | "hold-too-short"
  | "start-above-target"
  | "gauge-at-pump"
  | "gauge-stuck"
  | "gauge-too-coarse"
  | "not-isolated"
  | "pump-restarted"
  | "gap-in-record"
  | "last-readings-missing"
  | "still-heading-for-limit"
  | "leak-not-bounded"
  | "temperature-hides-leak"
  | "pressure-disturbed"
  // what was set aside on the way
  | "readings-ignored"
  | "valve-can-hide-leak";

export interface HoldReason {
  readonly code: HoldReasonCode;
  /** One plain sentence a technician can act on. */
  readonly text: string;
}

/** The part of the rise that does not fade. */
export interface HoldLeak {
  readonly ratePaPerS: number;
  readonly interval95PaPerS: readonly [number, number];
  readonly throughputPaM3PerS: number;
}

/** The level the fading part of the rise is heading for, leak apart. */
export interface SettlingLevel {
  readonly estimatePa: number;
  readonly interval95Pa: readonly [number, number];
}

/** One point of the predicted curve, from isolation onward past the last reading. */
export interface BandPoint {
  readonly atS: number;
  readonly loPa: number;
  readonly midPa: number;
  readonly hiPa: number;
}

export type HoldActionCode =
  | "break-vacuum-and-charge"
  | "wait"
  | "start-again-below-target"
  | "hold-again"
  | "sweep-with-nitrogen"
  | "look-for-leak"
  | "prove-rig-first"
  | "move-gauge"
  | "check-gauge"
  | "close-pump-valve"
  | "record-temperature";

/** What to do now; `waitS` counts from the last reading. */
export interface HoldAction {
  readonly code: HoldActionCode;
  readonly text: string;
  readonly waitS?: number;
}

export interface HoldJudgement {
  readonly rulesVersion: string;
  readonly verdict: HoldVerdict;
  /** Weightiest first. */
  readonly reasons: readonly HoldReason[];
  /** Absent below three usable readings. */
  readonly leak: HoldLeak | null;
  readonly settlesAt: SettlingLevel | null;
  /** "No leak above X" cannot be said for a smaller X; absent where the record says nothing about leaks. */
  readonly smallestLeakShownPaPerS: number | null;
  readonly band: readonly BandPoint[];
  readonly nextAction: HoldAction;
}
