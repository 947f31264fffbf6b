import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { Role } from "@/lib/auth/roles";
import type { Member } from "@/lib/auth/session";
import type { Entry, EntryContent, LogEntry, Stamp } from "@/lib/hvac/log/entry";
import { EntryId, InstallationId, type JobId } from "@/lib/ids";
import { headsOf, makeEntry, nextSeq, stamped } from "@/lib/sync/protocol";
import { refreshJob } from "./job-summary";
import type { TenantTx } from "./tenant";

/** The installation under which the office itself writes into logs. */
export const OFFICE_INSTALLATION = InstallationId.parse("00000000-0000-7000-8000-00000000d0f1");

const fields = { wire: true, receivedSeq: true, receivedAt: true, roles: true } as const;

/** Every entry of a job's log as received, in the order the server received them; the fold sorts by cause. */
export async function listEntries(tx: TenantTx, jobId: JobId, afterSeq = 0): Promise<LogEntry[]> {
  const rows = await tx.entry.findMany({
    where: { jobId, receivedSeq: { gt: afterSeq } },
    orderBy: { receivedSeq: "asc" },
    select: fields,
  });
  return rows.map((row) => stamped(row.wire as unknown as Entry, stampOf(row)));
}

/** Holds the job's log still: writers to one job wait for each other. False when the company has no such job. */
export async function lockLog(tx: TenantTx, jobId: JobId): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`select 1 from circuit_job where id = ${jobId}::uuid for update`;
  return rows.length === 1;
}

/** Appends an entry whose author and place in the log are settled; the stamp it got. */
export async function insertEntry(tx: TenantTx, entry: Entry, roles: readonly Role[]): Promise<Stamp> {
  const row = await tx.entry.create({
    data: {
      id: entry.id,
      jobId: entry.job,
      installationId: entry.installation,
      personId: entry.person,
      seq: entry.seq,
      kind: entry.kind,
      wire: entry as object,
      roles: [...roles],
    },
    select: fields,
  });
  return stampOf(row);
}

/** Writes an entry from the office (an answer, a note, a job's first entry) on top of everything received so far. */
export async function appendOfficeEntry(tx: TenantTx, jobId: JobId, by: Member, content: EntryContent): Promise<Entry> {
  await lockLog(tx, jobId);
  const log = await listEntries(tx, jobId);
  const author = { company: by.companyId, job: jobId, installation: OFFICE_INSTALLATION, person: by.personId };
  const writing = {
    id: EntryId.parse(uuidv7()),
    seq: nextSeq(log, author),
    heads: headsOf(log),
    deviceAt: new Date().toISOString(),
    clockOffsetMs: 0,
  };
  const entry = makeEntry(author, writing, content);
  await insertEntry(tx, entry, by.roles);
  await refreshJob(tx, jobId);
  return entry;
}

export function stampOf(row: { receivedSeq: bigint; receivedAt: Date; roles: string[] }): Stamp {
  return { receivedSeq: Number(row.receivedSeq), receivedAt: row.receivedAt.toISOString(), roles: row.roles as Role[] };
}
