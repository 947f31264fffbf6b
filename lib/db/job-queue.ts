import "server-only";
import type { TenantTx } from "./tenant";

/**
 * Asks for work once this transaction is committed, at the time given; `key` names what it is about.
 * The same kind and key asked for again is the same job, also after it was done.
 */
export async function putJob(tx: TenantTx, job: { kind: string; key: string; dueAt: Date }): Promise<void> {
  await tx.$executeRaw`select gate.put_job(${job.kind}, ${job.key}, ${job.dueAt.toISOString()}::timestamptz)`;
}
