import { v7 as uuidv7 } from "uuid";
import { OFFICE_INSTALLATION } from "@/lib/db/office-entry";
import type { CircuitFacts, Entry, EntryContent, EvidenceOf, LogEntry } from "@/lib/hvac/procedure";
import { TEMPLATE_VERSION } from "@/lib/hvac/procedure";
import type { CompanyId, JobId, PersonId } from "@/lib/ids";
import { EntryId, InstallationId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { makeEntry, stamped } from "@/lib/sync/protocol";
import { afterHold, hold, upToEvacuation } from "../field-work";
import type { PastKind, ProofStory } from "./draw-past";

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
const DAY_MS = 86_400_000;

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

function fieldWork({ story, kind, startedAt, technician }: PastWork): (EntryContent | "close")[] {
  const overdue = story === "gauge-overdue";
  const due = new Date(startedAt.getTime() + (overdue ? -25 : 120) * DAY_MS).toISOString().slice(0, 10);
  const steps = [
    ...upToEvacuation(startedAt),
    story === "hold-allowed" ? hold(49, 330, 260, 240) : hold(181, 310, 160, 260),
  ];
  const asked: EntryContent = {
    kind: "override-asked",
    body: { step: "hold", why: "The cold room warms up; the reading was flattening." },
  };
  return [...steps, ...(story === "hold-allowed" ? [asked] : []), ...afterHold(technician)].map((content) =>
    content === "close" ? content : told(content, story, kind, due),
  );
}

const worked = {
  leak_repair: { work: "Leak at the flare found and remade", parts: [{ name: "Liquid line drier", serial: null }] },
  compressor_change: null,
  pump_down_service: { work: "Expansion valve changed", parts: [{ name: "Expansion valve", serial: null }] },
} as const;

/** The same work as this story has it. */
function told(content: EntryContent, story: ProofStory, kind: PastKind, due: string): EntryContent {
  if (content.kind !== "step-recorded") return content;
  const { step, evidence } = content.body as { step: string; evidence: Record<string, unknown> };
  const gauge = evidence.gauge as object | undefined;
  const record = evidence.record as EvidenceOf<"hold">["record"] | undefined;
  const more = {
    ...(gauge && { gauge: { ...gauge, calibrationDueOn: due } }),
    ...(step === "open_repair" && (worked[kind] ?? {})),
    ...(step === "evacuate" && story === "cores-left-in" && { coresOut: false }),
    ...(step === "hold" &&
      story === "typed-hold" &&
      record?.kept === "inline" && {
        source: "typed",
        record: { ...record, readings: record.readings.filter((_, index) => index % 12 === 0) },
      }),
    ...(step === "pressure_test" &&
      record?.kept === "inline" && {
        record: { ...record, readings: record.readings.filter((_, index) => index % 4 === 0) },
      }),
  };
  return { ...content, body: { step, evidence: { ...evidence, ...more } } } as unknown as EntryContent;
}
