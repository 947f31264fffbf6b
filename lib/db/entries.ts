import "server-only";
import type { Role } from "@/lib/auth/roles";
import type { Entry, LogEntry, Stamp } from "@/lib/hvac/procedure";
import type { JobId } from "@/lib/ids";
import { stamped } from "@/lib/sync/protocol";
import type { TenantTx } from "./tenant";

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

/** Holds several logs still, always in the same order so that two parcels cannot wait for each other; those the company has. */
export async function lockLogs(tx: TenantTx, jobIds: readonly JobId[]): Promise<ReadonlySet<JobId>> {
  const rows = await tx.$queryRaw<{ id: JobId }[]>`
    select id from circuit_job where id = any (${[...new Set(jobIds)]}::uuid[]) order by id for update`;
  return new Set(rows.map((row) => row.id));
}

/** Appends entries whose author and place in the log are settled, in their order; the stamp each got, by id. */
export async function insertEntries(
  tx: TenantTx,
  entries: readonly Entry[],
  roles: readonly Role[],
): Promise<ReadonlyMap<string, Stamp>> {
  if (entries.length === 0) return new Map();
  const rows = await tx.entry.createManyAndReturn({
    data: entries.map((entry) => ({
      id: entry.id,
      jobId: entry.job,
      installationId: entry.installation,
      personId: entry.person,
      seq: entry.seq,
      kind: entry.kind,
      wire: entry as object,
      roles: [...roles],
    })),
    select: { id: true, receivedSeq: true, receivedAt: true, roles: true },
  });
  return new Map(rows.map((row) => [row.id, stampOf(row)]));
}

export function stampOf(row: { receivedSeq: bigint; receivedAt: Date; roles: string[] }): Stamp {
  return { receivedSeq: Number(row.receivedSeq), receivedAt: row.receivedAt.toISOString(), roles: row.roles as Role[] };
}
