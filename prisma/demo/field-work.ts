import { v7 as uuidv7 } from "uuid";
import type { Member } from "@/lib/auth/session";
import { listEntries } from "@/lib/db/entries";
import { receiveEntries } from "@/lib/db/receive-entries";
import type { TenantTx } from "@/lib/db/tenant";
import type { EntryContent } from "@/lib/hvac/procedure";
import { EntryId, InstallationId, type JobId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { headsOf, makeEntry, nextSeq } from "@/lib/sync/protocol";

// Invented field work, written into a job's log the way a tablet writes it.

const minuteMs = 60_000;

/** Writes the contents one after the other, a few minutes apart, as `by` on a tablet of their own. */
export async function writeFieldWork(
  tx: TenantTx,
  jobId: JobId,
  by: Member,
  startedAt: Date,
  contents: readonly (EntryContent | "close")[],
): Promise<void> {
  const author = {
    company: by.companyId,
    job: jobId,
    installation: InstallationId.parse(uuidv7()),
    person: by.personId,
  };
  for (const [index, given] of contents.entries()) {
    const log = await listEntries(tx, jobId);
    const heads = headsOf(log);
    const content: EntryContent =
      given === "close" ? { kind: "job-closed", body: { heads, digest: closingDigest(log, heads) } } : given;
    const writing = {
      id: EntryId.parse(uuidv7()),
      seq: nextSeq(log, author),
      heads,
      deviceAt: new Date(startedAt.getTime() + index * 20 * minuteMs).toISOString(),
      clockOffsetMs: 0,
    };
    const received = await receiveEntries(tx, by, [makeEntry(author, writing, content)]);
    if (received.quarantined[0]) throw new Error(`demo entry ${index}: ${received.quarantined[0].message}`);
  }
}
