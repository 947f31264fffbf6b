import "server-only";
import { createHash } from "node:crypto";
import { v7 as uuidv7 } from "uuid";
import type { Member } from "@/lib/auth/session";
import { entryWire } from "@/lib/hvac/log/schema";
import type { Entry, EntryKind, Stamp } from "@/lib/hvac/procedure";
import type { JobId, PersonId } from "@/lib/ids";
import { digestOf } from "@/lib/sync/digest";
import { insertEntry, lockLogs, stampOf } from "./entries";
import { refreshJob } from "./job-summary";
import type { TenantTx } from "./tenant";

export type QuarantineReason =
  | "malformed"
  | "not-storable"
  | "not-this-company"
  | "not-the-author"
  | "unknown-job"
  | "not-yours-to-write"
  | "no-longer-a-member"
  | "id-used-otherwise"
  | "sequence-used-otherwise";

export interface Quarantined {
  index: number;
  id: string | null;
  reason: QuarantineReason;
  path?: string;
  message: string;
}

export interface Received {
  receipts: { id: string; stamp: Stamp }[];
  quarantined: Quarantined[];
  /** Received and kept, but changing nothing, with the reason; a closing that is refused says what is missing. */
  withoutEffect: { id: string; code: string; text: string; missing: string[] }[];
}

/**
 * Takes what a device sends into the logs it belongs to. Each well-formed entry of its signed-in author gets a stamp; a resend gets the
 * stamp it had; everything else is kept in quarantine for a supervisor. All in the caller's transaction: receipts hold once it commits.
 */
export async function receiveEntries(tx: TenantTx, member: Member, raw: readonly unknown[]): Promise<Received> {
  const received: Received = { receipts: [], quarantined: [], withoutEffect: [] };
  const touched = new Set<JobId>();
  const parsed = raw.map((given) => entryWire.safeParse(given));
  const jobs = await lockLogs(
    tx,
    parsed.flatMap((one) => (one.success ? [one.data.job] : [])),
  );
  for (const [index, given] of raw.entries()) {
    const taken = await takeOne(tx, member, parsed[index]!, jobs);
    if ("stamp" in taken) {
      received.receipts.push({ id: taken.entry.id, stamp: taken.stamp });
      if (taken.isNew) touched.add(taken.entry.job);
      continue;
    }
    await quarantine(tx, member, given, taken);
    received.quarantined.push({ index, id: idOf(given), ...taken });
  }
  const taken = new Set(received.receipts.map((receipt) => receipt.id));
  for (const jobId of touched) {
    const state = await refreshJob(tx, jobId);
    for (const { entry, code, text } of state.withoutEffect) {
      const missing = code === "close-not-proven" ? state.missingForClose.map((each) => each.text) : [];
      if (taken.has(entry)) received.withoutEffect.push({ id: entry, code, text, missing });
    }
  }
  return received;
}

type Refusal = { reason: QuarantineReason; path?: string; message: string };

async function takeOne(
  tx: TenantTx,
  member: Member,
  parsed: ReturnType<typeof entryWire.safeParse>,
  jobs: ReadonlySet<JobId>,
): Promise<{ entry: Entry; stamp: Stamp; isNew: boolean } | Refusal> {
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    return { reason: "malformed", path: issue?.path.join(".") ?? "", message: issue?.message ?? "not an entry" };
  }
  const entry = parsed.data;
  if (!isStorable(JSON.stringify(entry))) {
    return { reason: "not-storable", message: "Contains a character that no database can hold." };
  }
  if (entry.company !== member.companyId)
    return { reason: "not-this-company", message: "Written for another company." };
  if (entry.person !== member.personId)
    return { reason: "not-the-author", message: "Written by somebody else than who is signed in." };
  if (!jobs.has(entry.job)) return { reason: "unknown-job", message: "There is no such job in this company." };

  const before = await tx.entry.findFirst({
    where: { id: entry.id },
    select: { wire: true, receivedSeq: true, receivedAt: true, roles: true },
  });
  if (before) {
    if (digestOf(before.wire) === digestOf(entry)) return { entry, stamp: stampOf(before), isNew: false };
    return { reason: "id-used-otherwise", message: "Another entry was received under this id." };
  }
  if (member.roles.length === 0) {
    return { reason: "no-longer-a-member", message: "Sent after its author had left the company." };
  }
  if (!mayWrite(member, entry.kind)) {
    return { reason: "not-yours-to-write", message: `Your role does not write entries of the kind ${entry.kind}.` };
  }
  const { job: jobId, installation: installationId, person: personId, seq } = entry;
  if ((await tx.entry.count({ where: { jobId, installationId, personId, seq } })) > 0) {
    return {
      reason: "sequence-used-otherwise",
      message: `This device already sent another entry number ${seq} for this job.`,
    };
  }
  return { entry, stamp: await insertEntry(tx, entry, member.roles), isNew: true };
}

/** Field work is written by technicians and supervisors; the office may note. A job is opened by the server alone. */
function mayWrite(member: Member, kind: EntryKind): boolean {
  if (kind === "job-opened") return false;
  if (member.roles.includes("technician") || member.roles.includes("supervisor")) return true;
  return kind === "note";
}

export function countQuarantined(tx: TenantTx, personId: PersonId): Promise<number> {
  return tx.quarantine.count({ where: { personId } });
}

async function quarantine(tx: TenantTx, member: Member, given: unknown, refusal: Refusal): Promise<void> {
  const raw = JSON.stringify(given) ?? "null";
  const rawDigest = createHash("sha256").update(raw).digest();
  await tx.quarantine.createMany({
    data: [
      {
        id: uuidv7(),
        personId: member.personId,
        reason: refusal.reason,
        detail: {
          path: refusal.path === undefined ? null : storable(refusal.path),
          message: storable(refusal.message),
        },
        raw,
        rawDigest,
      },
    ],
    skipDuplicates: true,
  });
}

/** Whether JSON as written here holds no NUL and no half of a surrogate pair; a backslash that was typed stands doubled. */
function isStorable(json: string): boolean {
  return !/(?<!\\)(?:\\\\)*\\u(?:0000|d[89a-f])/i.test(json);
}

/** The words of a refusal may quote what cannot be stored. */
function storable(text: string): string {
  return text.replaceAll("\0", "\ufffd").replace(/\p{Surrogate}/gu, "\ufffd");
}

function idOf(given: unknown): string | null {
  const id = typeof given === "object" && given !== null && "id" in given ? given.id : null;
  return typeof id === "string" ? id.slice(0, 100) : null;
}
