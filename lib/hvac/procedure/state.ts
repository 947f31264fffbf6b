import type { EntryId, JobId, PersonId } from "@/lib/ids";
import type { CircuitFacts, CriteriaRow, JobKindOrUnknown, LogEntryOf } from "../log/entry";
import type { SequenceGap } from "../log/order";
import type { StepId } from "../log/step";
import type { StepVerdict } from "./verdict";
import type { AlarmCode, MissingCode, NextCode, NoEffectCode, ReviewCode, VoidCode } from "./words";

/** The six words every screen has a shape for. */
export type StepStatus = "proven" | "working" | "waiting" | "needs-you" | "refused" | "cannot-say";

/** Something that keeps a step open or the job from closing. */
export interface Missing {
  readonly code: MissingCode | string;
  readonly step: StepId | null;
  readonly text: string;
}
/** A record that no longer counts, and the entry that threw it away. */
export interface Invalidation {
  readonly entry: EntryId;
  readonly by: EntryId;
  readonly code: VoidCode;
  readonly text: string;
}
/** What a person has to decide because the log cannot. */
export interface Review {
  readonly code: ReviewCode;
  readonly step: StepId | null;
  readonly entries: readonly EntryId[];
  readonly text: string;
}
/** Something that happened and should not have; it stays on the record. */
export interface Alarm {
  readonly code: AlarmCode | string;
  readonly entry: EntryId;
  readonly text: string;
}
/** An entry that is kept and changes nothing, with the reason. */
export interface NoEffect {
  readonly entry: EntryId;
  readonly code: NoEffectCode;
  readonly text: string;
}

export interface StepState {
  readonly step: StepId;
  readonly status: StepStatus;
  /** Whether this kind of job lets the step be left out on its grounds. */
  readonly need: "required" | "skippable";
  /** What settles the step; a step left out on its grounds is `skip`, one allowed by a supervisor `override`. */
  readonly settledBy: "record" | "skip" | "override" | null;
  /** The entry the status rests on. */
  readonly entry: EntryId | null;
  readonly verdict: StepVerdict | null;
  readonly missing: readonly Missing[];
  readonly invalidated: readonly Invalidation[];
  readonly override: "not-allowed" | "barred" | "may-ask" | "asked" | "granted" | "refused";
}

export interface OverrideState {
  readonly ask: EntryId;
  readonly step: StepId;
  readonly askedBy: PersonId;
  readonly why: string;
  readonly answer: "none" | "granted" | "refused" | "contested";
  readonly answeredBy: PersonId | null;
  readonly answerWhy: string | null;
  /** A granted one that counts now; opening the circuit or a failed test takes it away again. */
  readonly stands: boolean;
  readonly ownAnswer: boolean;
}

export interface JobState {
  readonly job: JobId | null;
  readonly opened: boolean;
  readonly kind: JobKindOrUnknown;
  /** The kind whose template is in force: "unknown", with every step required, where the stated kind cannot be true. */
  readonly kindInForce: JobKindOrUnknown;
  readonly templateVersion: number;
  readonly circuit: CircuitFacts | null;
  readonly criteria: readonly CriteriaRow[];
  readonly flammable: boolean;
  readonly wet: boolean;
  /** A hold found water and none has passed since: the next evacuation is a triple one. */
  readonly dryAgain: boolean;
  readonly circuitWasOpened: boolean;
  readonly status: "open" | "left-for-today" | "closed";
  readonly certificate: "none" | "valid" | "stale";
  readonly closedBy: EntryId | null;
  /** Entries that came beside or after the closing. */
  readonly reopenedBy: readonly EntryId[];
  readonly left: LogEntryOf<"left-for-today">["body"] | null;
  readonly steps: readonly StepState[];
  readonly openStep: StepId | null;
  readonly next: { readonly code: NextCode; readonly step: StepId | null; readonly text: string };
  readonly overrides: readonly OverrideState[];
  readonly reviews: readonly Review[];
  readonly alarms: readonly Alarm[];
  readonly withoutEffect: readonly NoEffect[];
  /** Failed tests somebody corrected; they were never passed by it. */
  readonly correctedFailures: readonly EntryId[];
  readonly missingForClose: readonly Missing[];
  /** Entries named by others that have not arrived; until they have, nothing closes. */
  readonly awaited: readonly EntryId[];
  readonly gaps: readonly SequenceGap[];
  readonly heads: readonly EntryId[];
  readonly mass: { readonly recoveredKg: number; readonly chargedKg: number };
  readonly rulesVersion: string;
}
