import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { Member } from "@/lib/auth/session";
import type { Entry, EntryContent } from "@/lib/hvac/procedure";
import { EntryId, InstallationId, type JobId } from "@/lib/ids";
import { headsOf, makeEntry, nextSeq } from "@/lib/sync/protocol";
import { insertEntries, listEntries, lockLog } from "./entries";
import { refreshJob } from "./job-summary";
import type { TenantTx } from "./tenant";

/** The installation under which the office itself writes into logs. */
export const OFFICE_INSTALLATION = InstallationId.parse("00000000-0000-7000-8000-00000000d0f1");

/** Writes an entry from the office (an answer, a note, a job's first entry) on top of everything received so far. */
export async function appendOfficeEntry(
  tx: TenantTx,
  jobId: JobId,
  by: Member,
  content: EntryContent,
  at = new Date(),
): Promise<Entry> {
  await lockLog(tx, jobId);
  const log = await listEntries(tx, jobId);
  const author = { company: by.companyId, job: jobId, installation: OFFICE_INSTALLATION, person: by.personId };
  const writing = {
    id: EntryId.parse(uuidv7()),
    seq: nextSeq(log, author),
    heads: headsOf(log),
    deviceAt: at.toISOString(),
    clockOffsetMs: 0,
  };
  const entry = makeEntry(author, writing, content);
  await insertEntries(tx, [entry], by.roles);
  await refreshJob(tx, jobId);
  return entry;
}
