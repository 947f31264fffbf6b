import { v7 as uuidv7 } from "uuid";
import { OFFICE_INSTALLATION } from "@/lib/db/office-entry";
import type { CircuitFacts, Entry, EntryContent, LogEntry } from "@/lib/hvac/procedure";
import { TEMPLATE_VERSION } from "@/lib/hvac/procedure";
import type { CompanyId, JobId, PersonId } from "@/lib/ids";
import { EntryId, InstallationId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { makeEntry, stamped } from "@/lib/sync/protocol";
import type { PastKind, ProofStory } from "./draw-past";
import { fieldWork } from "./past-work";

export interface PastWork {
  readonly company: CompanyId;
  readonly job: JobId;
  readonly kind: PastKind;
  readonly story: ProofStory;
  readonly circuit: CircuitFacts;
  readonly dispatcher: PersonId;
  readonly technician: PersonId;
  readonly supervisor: PersonId;
  readonly startedAt: Date;
}

const MINUTE_MS = 60_000;

/** The log a job of this kind and story leaves, from the call to the signature, as its tablet and its office wrote it. */
export function pastLog(work: PastWork): LogEntry[] {
  const entries: LogEntry[] = [];
  const tablet = InstallationId.parse(uuidv7());
  const seqs = new Map<string, number>();
  const write = (
    person: PersonId,
    role: "dispatcher" | "technician" | "supervisor",
    content: EntryContent,
    afterMinutes: number,
  ): Entry => {
    const installation = role === "technician" ? tablet : OFFICE_INSTALLATION;
    const seq = (seqs.get(`${installation} ${person}`) ?? 0) + 1;
    seqs.set(`${installation} ${person}`, seq);
    const at = new Date(work.startedAt.getTime() + afterMinutes * MINUTE_MS);
    const entry = makeEntry(
      { company: work.company, job: work.job, installation, person },
      {
        id: EntryId.parse(uuidv7({ msecs: at.getTime(), seq: entries.length })),
        seq,
        heads: entries.length === 0 ? [] : [entries[entries.length - 1]!.id],
        deviceAt: at.toISOString(),
        clockOffsetMs: 0,
      },
      content,
    );
    entries.push(stamped(entry, { receivedSeq: entries.length + 1, receivedAt: at.toISOString(), roles: [role] }));
    return entry;
  };

  const { kind, circuit } = work;
  write(
    work.dispatcher,
    "dispatcher",
    { kind: "job-opened", body: { kind, templateVersion: TEMPLATE_VERSION, circuit, criteria: [] } },
    0,
  );
  let minute = 20;
  for (const content of fieldWork(work)) {
    if (content === "close") {
      const heads = [entries[entries.length - 1]!.id];
      const body = { heads, digest: closingDigest(entries, heads) };
      write(work.technician, "technician", { kind: "job-closed", body }, minute);
    } else {
      const { id } = write(work.technician, "technician", content, minute);
      if (content.kind === "override-asked")
        write(
          work.supervisor,
          "supervisor",
          {
            kind: "override-answered",
            body: { asks: id, granted: true, why: "Goods at risk; looked at again in spring." },
          },
          minute + 5,
        );
    }
    minute += 20;
  }
  return entries;
}
