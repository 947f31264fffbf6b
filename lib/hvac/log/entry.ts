import type { z } from "zod";
import type { circuitFacts, jobKind, pressureClass, refrigerantFact, safetyClass } from "./circuit-schema";
import type {
  criteriaOrigin,
  criteriaRow,
  evacuateValues,
  holdValues,
  leakCheckValues,
  pressureTestValues,
} from "./criteria-schema";
import type {
  attachment as attachmentSchema,
  pressureReading,
  recoveryAlternative,
  traceReference,
  vacuumReading,
} from "./evidence-schema";
import type { entryStamp, entryWire, skipGrounds, stepRecordedBody } from "./schema";
import type { StepId } from "./step";

/*
 * The types of the log, drawn from its schemas; importing this file brings no schema code with it.
 */

/** One entry as a device makes it and as it crosses the wire. */
export type Entry = z.infer<typeof entryWire>;
export type EntryKind = Entry["kind"];
export type EntryOf<K extends EntryKind> = Extract<Entry, { kind: K }>;
/** The part of an entry that its author decides. */
export type EntryContent = { [K in EntryKind]: Pick<EntryOf<K>, "kind" | "body" | "supersedes"> }[EntryKind];

/** What the server added on receipt. */
export type Stamp = z.infer<typeof entryStamp>;
/** An entry as the log holds it: the stamp is null until the server has it, and is never part of the wire form. */
export type LogEntry = Entry & { readonly stamp: Stamp | null };
export type LogEntryOf<K extends EntryKind> = EntryOf<K> & { readonly stamp: Stamp | null };

export type StepRecord = z.infer<typeof stepRecordedBody>;
export type EvidenceOf<S extends StepId> = Extract<StepRecord, { step: S }>["evidence"];
export type SkipGrounds = z.infer<typeof skipGrounds>;
export type RecoveryAlternative = z.infer<typeof recoveryAlternative>;
export type TraceReference = z.infer<typeof traceReference>;
export type VacuumReading = z.infer<typeof vacuumReading>;
export type PressureReading = z.infer<typeof pressureReading>;
export type Attachment = z.infer<typeof attachmentSchema>;

export type CircuitFacts = z.infer<typeof circuitFacts>;
export type RefrigerantFact = z.infer<typeof refrigerantFact>;
export type SafetyClass = z.infer<typeof safetyClass>;
export type PressureClass = z.infer<typeof pressureClass>;
/** A kind of job, or "unknown" until someone has seen the unit. */
export type JobKindOrUnknown = z.infer<typeof jobKind>;

export type CriteriaRow = z.infer<typeof criteriaRow>;
export type CriteriaOrigin = z.infer<typeof criteriaOrigin>;
export type CriteriaStep = CriteriaRow["criteria"]["step"];
export type EvacuateCriteria = z.infer<typeof evacuateValues>;
export type HoldCriteria = z.infer<typeof holdValues>;
export type PressureTestCriteria = z.infer<typeof pressureTestValues>;
export type LeakCheckCriteria = z.infer<typeof leakCheckValues>;
