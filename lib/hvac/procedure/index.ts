export type {
  Attachment,
  CircuitFacts,
  CriteriaOrigin,
  CriteriaRow,
  CriteriaStep,
  Entry,
  EntryContent,
  EntryKind,
  EntryOf,
  EvacuateCriteria,
  EvidenceOf,
  HoldCriteria,
  JobKindOrUnknown,
  LeakCheckCriteria,
  LogEntry,
  LogEntryOf,
  PressureReading,
  PressureTestCriteria,
  RecoveryAlternative,
  RefrigerantFact,
  SkipGrounds,
  Stamp,
  StepRecord,
  TraceReference,
  VacuumReading,
} from "../log/entry";
export { chainOf, inOrder, type MergeOutcome, mergeEntries, wireOf } from "../log/merge";
export { JOB_KINDS, type JobKind, ROLES, type Role, STEP_IDS, type StepId } from "../log/step";
export {
  judgeProof,
  PROOF_RULES_VERSION,
  type Proof,
  type ProofFacts,
  type ProofLimit,
  type Strength,
} from "../proof/judge-proof";
export { proofFacts } from "../proof/proof-facts";
export { type CriteriaGround, type CriteriaInForce, criteriaInForce } from "./criteria";
export { nitrogenSweepsAsked } from "./evidence";
export { foldJob, PROCEDURE_RULES_VERSION } from "./fold-job";
export { holdRecordOf } from "./hold-record";
export type { FoldTools, JudgeTools, Trace, TraceShelf } from "./judge-record";
export { judges } from "./judges";
export { type MassMove, massMoves } from "./mass-moves";
export { missingForClose } from "./missing-for-close";
export type {
  Alarm,
  Invalidation,
  JobState,
  Missing,
  NoEffect,
  OverrideState,
  Review,
  StepState,
  StepStatus,
} from "./state";
export { findTemplate, type SkipReason, type StepRule, TEMPLATE_VERSION, type Template } from "./template";
export type { Outcome, StepVerdict, VerdictReason } from "./verdict";
export {
  alarmText,
  missingText,
  nextText,
  noEffectText,
  reviewText,
  stepName,
  voidText,
} from "./words";
