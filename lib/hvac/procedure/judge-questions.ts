import type {
  CircuitFacts,
  EvidenceOf,
  HoldCriteria,
  PressureReading,
  PressureTestCriteria,
  VacuumReading,
} from "../log/entry";
import type { StepVerdict, VerdictReason } from "./verdict";

/** What each judge is asked; the procedure knows no formula and asks them all. */
export interface RecoveryQuestion {
  readonly evidence: EvidenceOf<"recover">;
  readonly circuit: CircuitFacts | null;
}
export interface PressureTestQuestion {
  readonly evidence: EvidenceOf<"pressure_test">;
  readonly readings: readonly PressureReading[];
  readonly criteria: PressureTestCriteria;
  /** Limit of the weakest part connected. */
  readonly maxTestKPaGauge: number;
  readonly circuit: CircuitFacts | null;
}
export interface HoldQuestion {
  readonly evidence: EvidenceOf<"hold">;
  readonly readings: readonly VacuumReading[];
  readonly criteria: HoldCriteria;
  readonly circuit: CircuitFacts | null;
}
export interface ChargeQuestion {
  readonly evidence: EvidenceOf<"break_and_charge">;
  readonly circuit: CircuitFacts | null;
  /** Weighed in by earlier entries since the vacuum that stands. */
  readonly chargedBeforeKg: number;
}
export interface PerformanceQuestion {
  readonly evidence: EvidenceOf<"performance">;
  readonly circuit: CircuitFacts | null;
}
export interface CylinderQuestion {
  readonly evidence: EvidenceOf<"recover">;
  readonly circuit: CircuitFacts | null;
  /** Day of the work, "2026-11-25". */
  readonly day: string;
}

/** The computing judges, handed in so that the procedure can be tried with stand-ins. */
export interface Judges {
  readonly recovery: (question: RecoveryQuestion) => StepVerdict;
  readonly pressureTest: (question: PressureTestQuestion) => StepVerdict;
  readonly hold: (question: HoldQuestion) => StepVerdict;
  readonly charge: (question: ChargeQuestion) => StepVerdict;
  readonly performance: (question: PerformanceQuestion) => StepVerdict;
  /** What went wrong with the cylinders that were filled; it has happened, so it alarms and refuses nothing. */
  readonly cylinders: (question: CylinderQuestion) => readonly VerdictReason[];
}
