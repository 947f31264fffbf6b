/** One reading of a standing nitrogen test. `temperatureK` is the air or the pipe beside the gauge, not the gas. */
export interface PressureTestReading {
  readonly atS: number;
  readonly gaugePa: number;
  readonly temperatureK: number;
}

/** A standing nitrogen test as the domain knows it: SI, pressures as the gauge shows them. */
export interface PressureTestRecord {
  readonly internalVolumeM3: number;
  readonly atmosphericPa: number;
  /** Limit of the weakest part connected, as gauge pressure. */
  readonly maxTestGaugePa: number;
  readonly refrigerant: string;
  readonly gauge: { readonly resolutionPa: number; readonly accuracyFraction: number };
  readonly temperatureAccuracyK: number;
  readonly criteria: { readonly testGaugePa: number; readonly holdS: number; readonly maxLeakPaPerS: number };
  readonly readings: readonly PressureTestReading[];
}

export type PressureTestVerdict = "tight" | "leaking" | "unproven" | "over-pressure";

export type PressureTestReasonCode =
  | "above-limit"
  | "too-few-readings"
  | "below-test-pressure"
  | "hold-too-short"
  | "leak-within-limit"
  | "leak-above-limit"
  | "leak-not-bounded"
  | "gas-added"
  | "pressure-ignores-air"
  | "late-loss"
  | "temperature-unsettled"
  | "gauge-too-coarse";

export interface PressureTestReason {
  readonly code: PressureTestReasonCode;
  /** One plain sentence a technician can act on. */
  readonly text: string;
}

/** A leak at the first reading's pressure and a constant temperature. */
export interface PressureTestLeak {
  readonly paPerS: number;
  readonly interval95PaPerS: readonly [number, number];
  readonly throughputPaM3PerS: number;
}

export interface PressureTestJudgement {
  readonly verdict: PressureTestVerdict;
  readonly reasons: readonly PressureTestReason[];
  /** Absent below three readings: two points cannot tell a leak from gas that is still settling. */
  readonly leak: PressureTestLeak | null;
  /** Change from the first reading to the last that temperature does not explain; negative is a loss. */
  readonly compensatedChangePa: number | null;
}
