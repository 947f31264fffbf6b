import "server-only";
import type { EvidenceOf, JobState, LogEntry, StepId, StepVerdict } from "@/lib/hvac/procedure";
import { foldJob } from "@/lib/hvac/procedure";
import { judgeProof, type Proof } from "@/lib/hvac/proof/judge-proof";
import { proofFacts } from "@/lib/hvac/proof/proof-facts";
import type { EntryId, JobId, TraceId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { rememberedJudges } from "@/lib/sync/remembered-judges";
import { type KnownTrace, traceShelf } from "@/lib/sync/trace";
import { listEntries } from "./entries";
import { postJob } from "./refrigerant/post-job";
import type { TenantTx } from "./tenant";
import { readTraces } from "./traces";

/** What lists show of a job without folding its log again. */
export interface JobSummary {
  kind: string;
  openStep: string | null;
  next: string;
  steps: { step: string; status: string; settledBy: string | null }[];
  missing: { step: StepId | null; text: string }[];
  reviews: string[];
  alarms: string[];
  asks: { ask: string; step: StepId; why: string; askedBy: string }[];
  proofReasons: string[];
  closedAt: string | null;
  /** By entry, what a closed job was closed on; none while it is open. */
  verdicts: Record<string, StepVerdict>;
}

export interface ReadJob {
  entries: LogEntry[];
  traces: ReadonlyMap<TraceId, KnownTrace>;
  state: JobState;
  proof: Proof;
}

/** A job's log and the state it folds to, by the same functions as on the tablet. */
export async function readJob(tx: TenantTx, jobId: JobId): Promise<ReadJob> {
  const entries = await listEntries(tx, jobId);
  const traces = await readTraces(tx, jobId);
  const verdicts = await verdictsOfClosed(tx, jobId);
  const state = foldJob(entries, { judges: rememberedJudges, closingDigest, traces: traceShelf(traces), verdicts });
  return { entries, traces, state, proof: judgeProof(proofFacts(state, entries)) };
}

/** A closed job keeps the verdicts it was closed on, whatever the judges have learnt since. */
async function verdictsOfClosed(tx: TenantTx, jobId: JobId): Promise<ReadonlyMap<EntryId, StepVerdict>> {
  const job = await tx.circuitJob.findFirst({ where: { id: jobId, state: "closed" }, select: { summary: true } });
  const { verdicts } = (job?.summary ?? {}) as Partial<JobSummary>;
  return new Map(Object.entries(verdicts ?? {}) as [EntryId, StepVerdict][]);
}

/**
 * Folds the log again after it grew, keeps the answer for lists, stores how new tests were judged here and on the device, and brings
 * the refrigerant books to it. A log
 * that cannot be folded is our bug and no reason to refuse what was done: the entry stays, the job asks for a look, the answer is null.
 */
export async function refreshJob(tx: TenantTx, jobId: JobId): Promise<JobState | null> {
  let read: ReadJob;
  try {
    read = await readJob(tx, jobId);
  } catch (problem) {
    await markUnreadable(tx, jobId).catch(() => {
      throw problem; // it was the database: everything is undone
    });
    console.error(`job ${jobId} cannot be folded`, problem);
    return null;
  }
  const { entries, state, proof } = read;
  await tx.circuitJob.updateMany({
    where: { id: jobId },
    data: {
      state: state.status === "open" && state.reviews.length > 0 ? "needs-review" : state.status,
      strength: state.status === "closed" ? proof.strength : null,
      asksOverride: openAsks(state).length > 0,
      summary: summaryOf(state, proof, entries) as object,
      changedAt: new Date(),
    },
  });
  await storeVerdicts(tx, jobId, entries, state);
  await postJob(tx, jobId, state, entries);
  return state;
}

/** What the lists knew of the job stays, but that it is closed: nobody can say so now. */
async function markUnreadable(tx: TenantTx, jobId: JobId): Promise<void> {
  const job = await tx.circuitJob.findFirst({ where: { id: jobId }, select: { summary: true } });
  const reviews = [
    "This job's log cannot be read by this version of the program. Nothing is lost; tell whoever runs it.",
  ];
  const summary = { ...(job?.summary as object), reviews };
  const data = { state: "needs-review", strength: null, summary, changedAt: new Date() };
  await tx.circuitJob.updateMany({ where: { id: jobId }, data });
}

function verdictsOf(state: JobState): Record<string, StepVerdict> {
  return Object.fromEntries(state.steps.flatMap(({ entry, verdict }) => (entry && verdict ? [[entry, verdict]] : [])));
}

function openAsks(state: JobState): JobSummary["asks"] {
  return state.overrides
    .filter((each) => each.answer === "none")
    .map(({ ask, step, why, askedBy }) => ({ ask, step, why, askedBy }));
}

/** What lists show of a job in this state. */
export function summaryOf(state: JobState, proof: Proof, entries: readonly LogEntry[]): JobSummary {
  return {
    kind: state.kind,
    openStep: state.openStep,
    next: state.next.text,
    steps: state.steps.map(({ step, status, settledBy }) => ({ step, status, settledBy })),
    missing: state.missingForClose.map(({ step, text }) => ({ step, text })),
    reviews: state.reviews.map((each) => each.text),
    alarms: state.alarms.map((each) => each.text),
    asks: openAsks(state),
    proofReasons: proof.reasons.map((each) => each.text),
    closedAt: entries.find((entry) => entry.id === state.closedBy)?.deviceAt ?? null,
    verdicts: state.status === "closed" ? verdictsOf(state) : {},
  };
}

/** Stores each test's verdict as the device gave it and as the server gives it now; what is stored already stays. */
async function storeVerdicts(tx: TenantTx, jobId: JobId, entries: readonly LogEntry[], state: JobState): Promise<void> {
  const rows = entries.flatMap((entry) => {
    if (entry.kind !== "step-recorded" || (entry.body.step !== "hold" && entry.body.step !== "pressure_test"))
      return [];
    const device = (entry.body.evidence as EvidenceOf<"hold">).deviceVerdict;
    const server = state.steps.find((step) => step.entry === entry.id)?.verdict;
    const row = { entryId: entry.id, jobId };
    return [
      ...(device
        ? [
            {
              ...row,
              judgedBy: "device",
              rulesVersion: device.rulesVersion,
              verdict: device.verdict,
              judgement: device,
            },
          ]
        : []),
      ...(server
        ? [
            {
              ...row,
              judgedBy: "server",
              rulesVersion: server.rulesVersion,
              verdict: server.verdict,
              judgement: server as object,
            },
          ]
        : []),
    ];
  });
  if (rows.length > 0) await tx.verdict.createMany({ data: rows, skipDuplicates: true });
}
