import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { EvidenceOf, JobState, LogEntry } from "@/lib/hvac/procedure";
import type { JobId } from "@/lib/ids";
import { dayAt } from "@/lib/work/site-time";
import { toColumn } from "../calendar-date";
import type { TenantTx } from "../tenant";

interface JobEvent {
  readonly key: string;
  readonly kind: "repair" | "initial-verification";
  readonly on: string;
  readonly passed: boolean | null;
  readonly entry: LogEntry;
  readonly method: string;
}

/** What a closed job shows for the leak rules: the repair, and the initial verification test its records name. Corrections supersede. */
export async function eventsOfJob(
  tx: TenantTx,
  jobId: JobId,
  state: JobState,
  entries: readonly LogEntry[],
): Promise<void> {
  const before = await tx.lawEvent.findMany({ where: { jobId }, orderBy: { recordedAt: "asc" } });
  if (before.length === 0 && state.status !== "closed") return;
  const job = await tx.circuitJob.findFirstOrThrow({
    where: { id: jobId },
    select: {
      circuitId: true,
      workOrder: { select: { serviceCall: { select: { site: { select: { timeZone: true } } } } } },
    },
  });
  const expected = listJobEvents(state, entries, job.workOrder.serviceCall.site.timeZone);
  const superseded = new Set(before.map(({ supersedes }) => supersedes));
  const standing = before.filter(({ id, kind }) => kind !== "withdrawn" && !superseded.has(id));
  for (const key of new Set([...standing.map((row) => keyOf(row.sourceKey)), ...expected.map((each) => each.key)])) {
    const was = standing.find((row) => keyOf(row.sourceKey) === key);
    const is = expected.find((each) => each.key === key);
    const same =
      was !== undefined &&
      is !== undefined &&
      was.passed === is.passed &&
      was.happenedOn.toISOString().slice(0, 10) === is.on;
    if (same) continue;
    const who = is?.entry.person ?? was!.personId;
    const person = await tx.member.findFirst({
      where: { personId: who },
      select: { name: true, certificates: { select: { kind: true, number: true } } },
    });
    await tx.lawEvent.create({
      data: {
        id: uuidv7(),
        circuitId: job.circuitId,
        kind: is?.kind ?? "withdrawn",
        happenedOn: is ? toColumn(is.on)! : was!.happenedOn,
        passed: is?.passed ?? null,
        doneBy: person?.name ?? "",
        certificate: (person?.certificates ?? [])
          .map(({ kind, number }) => `${kind} ${number}`.trim())
          .join(", ")
          .slice(0, 120),
        method: is?.method ?? "",
        note: is ? "" : "The job's log does not say so any more.",
        sourceKey: `job:${jobId}:${key}:${before.length}`,
        supersedes: was?.id ?? null,
        jobId,
        entryId: is?.entry.id ?? null,
        personId: who,
      },
    });
  }
}

function listJobEvents(state: JobState, entries: readonly LogEntry[], timeZone: string): JobEvent[] {
  if (state.status !== "closed" || state.kind !== "leak_repair") return [];
  const recordOf = (step: string) => {
    const found = state.steps.find((each) => each.step === step && each.settledBy === "record")?.entry;
    return entries.find(({ id }) => id === found);
  };
  const events: JobEvent[] = [];
  const repaired = recordOf("open_repair");
  if (repaired?.kind === "step-recorded") {
    const { closedAt } = repaired.body.evidence as EvidenceOf<"open_repair">;
    const on = plausible(dayAt(new Date(closedAt), timeZone));
    events.push({ key: "repair", kind: "repair", on, passed: null, entry: repaired, method: "repair on the job" });
  }
  const records = recordOf("records");
  const verification =
    records?.kind === "step-recorded" ? (records.body.evidence as EvidenceOf<"records">).verification : null;
  if (records !== undefined && verification) {
    const checked = recordOf("leak_check");
    const joints = checked?.kind === "step-recorded" ? (checked.body.evidence as EvidenceOf<"leak_check">).joints : [];
    events.push({
      key: "initial-verification",
      kind: "initial-verification",
      on: plausible(verification.initialTestOn),
      passed: verification.initialTestPassed,
      entry: records,
      method: [...new Set(joints.map(({ method }) => method))].join(", ").slice(0, 200),
    });
  }
  return events;
}

const keyOf = (sourceKey: string) => sourceKey.split(":")[2] ?? "";

/** A device may claim any day; the database holds none before there were years. */
const plausible = (day: string) => (day < "2000-01-01" ? "2000-01-01" : day);
