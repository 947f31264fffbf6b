import type { CriteriaRow, EntryContent, EvidenceOf, JobKindOrUnknown, LogEntry } from "@/lib/hvac/log/entry";
import type { Role, StepId } from "@/lib/hvac/log/step";
import { STEP_IDS } from "@/lib/hvac/log/step";
import { foldJob } from "@/lib/hvac/procedure/fold-job";
import type { Judges } from "@/lib/hvac/procedure/judge-questions";
import type { FoldTools } from "@/lib/hvac/procedure/judge-record";
import type { JobState } from "@/lib/hvac/procedure/state";
import type { Outcome, StepVerdict } from "@/lib/hvac/procedure/verdict";
import type { CompanyId, EntryId, InstallationId, JobId, PersonId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { headsOf, makeEntry, mergeEntries, nextSeq, stamped, unstamped, wireOf } from "@/lib/sync/protocol";
import { circuit, recordOf, supervisor, technician } from "./evidence-samples";

/** Stand-in judges: the verdict a record shall get stands in its note, "passed" where it has none. */
export function verdictFromNote(note: string | null, names: Readonly<Record<string, Outcome>>): StepVerdict {
  const [passing] = Object.entries(names).find(([, outcome]) => outcome === "passed")!;
  const verdict = note?.startsWith("verdict ") ? note.slice(8) : passing;
  const outcome = names[verdict] ?? "unproven";
  return { outcome, verdict, reasons: [], figures: {}, rulesVersion: "stand-in" };
}
export const standIns: Judges = {
  recovery: ({ evidence }) =>
    verdictFromNote(evidence.note, { reached: "passed", "not-reached": "failed", unproven: "unproven" }),
  pressureTest: ({ evidence }) =>
    verdictFromNote(evidence.note, {
      tight: "passed",
      leaking: "failed",
      "over-pressure": "failed",
      unproven: "unproven",
    }),
  hold: ({ evidence }) =>
    verdictFromNote(evidence.note, {
      "dry-and-tight": "passed",
      wet: "failed",
      leaking: "failed",
      "wet-and-leaking": "failed",
      unproven: "unproven",
    }),
  charge: ({ evidence }) => verdictFromNote(evidence.note, { "as-planned": "passed", "too-little": "unproven" }),
  performance: ({ evidence }) => verdictFromNote(evidence.note, { complete: "passed", incomplete: "unproven" }),
  cylinders: () => [],
};
export const tools: FoldTools = { judges: standIns, traces: new Map(), closingDigest };

const company = "33333333-3333-4333-8333-333333333333" as CompanyId;
const job = "44444444-4444-4444-8444-444444444444" as JobId;

/** One device with its own view of the log; it sees what it wrote and what it was given. */
export class Tablet {
  view: LogEntry[] = [];
  constructor(
    private readonly number: number,
    private readonly person: PersonId = technician,
    private readonly roles: readonly Role[] = ["technician"],
  ) {}

  /** Writes an entry on all this tablet has seen; stamped unless the tablet is offline. */
  write(content: EntryContent, change: { offline?: boolean; at?: string } = {}): LogEntry {
    const installation = `55555555-5555-4555-8555-${this.number.toString(16).padStart(12, "0")}` as InstallationId;
    const author = { company, job, installation, person: this.person };
    const seq = nextSeq(this.view, author);
    const id = entryId(this.number, seq);
    const heads = headsOf(this.view);
    const deviceAt = change.at ?? new Date(Date.UTC(2026, 10, 25, 8, this.view.length)).toISOString();
    const entry = makeEntry(author, { id, seq, heads, deviceAt, clockOffsetMs: 0 }, content);
    const receivedSeq = this.number * 1000 + seq;
    const kept = change.offline
      ? unstamped(entry)
      : stamped(entry, { receivedSeq, receivedAt: deviceAt, roles: [...this.roles] });
    this.view = mergeEntries(this.view, [kept]).entries;
    return kept;
  }

  open(kind: JobKindOrUnknown, change: { circuit?: typeof circuit; criteria?: CriteriaRow[] } = {}): LogEntry {
    const body = { kind, templateVersion: 1, circuit: change.circuit ?? circuit, criteria: change.criteria ?? [] };
    return this.write({ kind: "job-opened", body });
  }
  record<S extends StepId>(step: S, change: Partial<EvidenceOf<S>> = {}): LogEntry {
    return this.write({ kind: "step-recorded", body: recordOf(step, change) });
  }
  recordAll(from: StepId = "make_safe", to: StepId = "records"): void {
    for (const step of STEP_IDS.slice(STEP_IDS.indexOf(from), STEP_IDS.indexOf(to) + 1)) this.record(step);
  }
  openCircuit(why = "to repair"): LogEntry {
    return this.write({ kind: "circuit-opened", body: { why } });
  }
  correct<S extends StepId>(target: LogEntry, step: S, change: Partial<EvidenceOf<S>> = {}): LogEntry {
    const supersedes = { entry: target.id, why: "typed wrong" };
    return this.write({ kind: "step-recorded", body: recordOf(step, change), supersedes });
  }
  skip(step: StepId, reason: "circuit-not-opened" | "no-port-touched" | "no-refrigerant-in-line-set"): LogEntry {
    const statement = "seen on site";
    const grounds = {
      "circuit-not-opened": { reason: "circuit-not-opened", sealsIntact: true, statement },
      "no-port-touched": { reason: "no-port-touched", capsIntact: true, statement },
      "no-refrigerant-in-line-set": { reason: "no-refrigerant-in-line-set", serviceValvesClosed: true, statement },
    } as const;
    return this.write({ kind: "step-skipped", body: { step, grounds: grounds[reason], photos: [] } });
  }
  ask(step: StepId): LogEntry {
    return this.write({ kind: "override-asked", body: { step, why: "the customer cannot wait" } });
  }
  answer(ask: LogEntry, granted: boolean, change: { offline?: boolean } = {}): LogEntry {
    return this.write({ kind: "override-answered", body: { asks: ask.id, granted, why: "seen" } }, change);
  }
  close(): LogEntry {
    const heads = headsOf(this.view);
    return this.write({ kind: "job-closed", body: { heads, digest: closingDigest(this.view.map(wireOf), heads) } });
  }
  see(...others: readonly Tablet[]): void {
    this.view = mergeEntries(this.view, ...others.map(({ view }) => view)).entries;
  }
  state(change: Partial<FoldTools> = {}): JobState {
    return foldJob(this.view, { ...tools, ...change });
  }
}

export function supervisorTablet(number = 9): Tablet {
  return new Tablet(number, supervisor, ["supervisor"]);
}

/** Version 7 in form; ordered by tablet, so that ids do not betray the order of writing. */
function entryId(tablet: number, seq: number): EntryId {
  const tail = (tablet * 65_536 + seq).toString(16).padStart(12, "0");
  return `0190b8a0-0000-7000-8000-${tail}` as EntryId;
}

export function stepOf(state: JobState, step: StepId) {
  return state.steps.find((one) => one.step === step)!;
}
