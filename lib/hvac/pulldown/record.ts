/** One gauge reading while the pump runs. */
export interface PulldownReading {
  readonly atS: number;
  readonly pressureAbsPa: number;
}

export interface PulldownHoses {
  readonly innerDiameterM: number;
  readonly lengthM: number;
  readonly count: number;
}

/** An evacuation under way, as the domain knows it: SI, absolute. Pump, hose and core data are nameplate, not truth. */
export interface PulldownRecord {
  readonly internalVolumeM3: number;
  readonly wallTemperatureK: number;
  readonly pump: { readonly speedM3PerS: number; readonly ultimateAbsPa: number };
  readonly valveCoresRemoved: boolean;
  readonly hoses: PulldownHoses;
  readonly gauge: {
    readonly location: "system" | "pump";
    readonly resolutionPa: number;
    readonly accuracyFraction: number;
  };
  readonly targetAbsPa: number;
  readonly readings: readonly PulldownReading[];
}

export type PulldownFinding =
  | "on-course"
  | "reached"
  | "too-early"
  | "stalled-by-leak"
  | "stalled-by-water"
  | "stalled-by-restriction"
  | "stalled-by-pump"
  | "stalled-by-outgassing";

export type PulldownReasonCode =
  | PulldownFinding
  | "leak-or-pump"
  | "restricted"
  | "cores-out-save"
  | "wider-hoses-save"
  | "gauge-at-pump"
  | "slow-pump"
  | "water-present";

export interface PulldownReason {
  readonly code: PulldownReasonCode;
  /** One plain sentence a technician can act on. */
  readonly text: string;
}

export interface PulldownJudgement {
  /** Seconds from the last reading until the gauge reads the target; null: not within four hours. */
  readonly etaToTargetS: number | null;
  /** Null without an answer; an open upper end is null. */
  readonly interval80S: readonly [number, number | null] | null;
  readonly finding: PulldownFinding;
  readonly reasons: readonly PulldownReason[];
  /** Net speed at the system that the readings show, pump and hoses together; null when they show none. */
  readonly effectiveSpeedM3PerS: number | null;
  readonly effectiveLitresPerSecond: number | null;
}
