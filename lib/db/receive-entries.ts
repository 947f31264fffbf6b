import "server-only";
import { createHash } from "node:crypto";
import { v7 as uuidv7 } from "uuid";
import type { Member } from "@/lib/auth/session";
import { entryWire } from "@/lib/hvac/log/schema";
import type { Entry, EntryKind, Stamp } from "@/lib/hvac/procedure";
import type { JobId, PersonId } from "@/lib/ids";
import { digestOf } from "@/lib/sync/digest";
import { insertEntries, lockLogs, stampOf } from "./entries";
import { refreshJob } from "./job-summary";
import type { TenantTx } from "./tenant";
import { noteOilChange } from "./tool-history";

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
  receipts: { id: string; job: string; digest: string; stamp: Stamp }[];
  quarantined: Quarantined[];
  /** Received and kept, but changing nothing, with the reason; a closing that is refused says what is missing. */
  withoutEffect: { id: string; code: string; text: string; missing: string[] }[];
}

/**
 * Takes what a device sends into the logs it belongs to. Each well-formed entry of its signed-in author gets a stamp; a resend gets the
 * stamp it had; everything else is kept in quarantine for a supervisor. All in the caller's transaction: receipts hold once it commits.
 */
export async function receiveEntries(tx: TenantTx, member: Member, raw: readonly unknown[]): Promise<Received> {
  const parsed = raw.map((given) => entryWire.safeParse(given));
  const readable = parsed.flatMap((one) => (one.success ? [one.data] : []));
  const jobs = await lockLogs(
    tx,
    readable.map(({ job }) => job),
  );
  const known = await readKnown(tx, readable);
  const outcomes = parsed.map((one) => judgeArrival(member, one, jobs, known));
  const stamps = await insertEntries(
    tx,
    outcomes.flatMap((outcome) => (outcome.what === "new" ? [outcome.entry] : [])),
    member.roles,
  );

  for (const outcome of outcomes) if (outcome.what === "new") await noteOilChange(tx, outcome.entry, member.timeZone);
  const received: Received = { receipts: [], quarantined: [], withoutEffect: [] };
  for (const [index, outcome] of outcomes.entries()) {
    if (outcome.what === "refused") {
      await quarantine(tx, member, raw[index], outcome.refusal);
      received.quarantined.push({ index, id: idOf(raw[index]), ...outcome.refusal });
      continue;
    }
    const { id, job } = outcome.entry;
    const { digest, stamp: before } = known.byId.get(id)!;
    const stamp = before ?? stamps.get(id);
    if (!stamp) throw new Error(`entry ${id} was written without a stamp`);
    received.receipts.push({ id, job, digest, stamp });
  }
  const touched = new Set(outcomes.flatMap((outcome) => (outcome.what === "new" ? [outcome.entry.job] : [])));
  const taken = new Set(received.receipts.map((receipt) => receipt.id));
  for (const jobId of touched) {
    const state = await refreshJob(tx, jobId);
    for (const { entry, code, text } of state?.withoutEffect ?? []) {
      const missing = code === "close-not-proven" ? (state?.missingForClose ?? []).map((each) => each.text) : [];
      if (taken.has(entry)) received.withoutEffect.push({ id: entry, code, text, missing });
    }
  }
  return received;
}

type Refusal = { reason: QuarantineReason; path?: string; message: string };
type Arrival = { what: "new" | "known"; entry: Entry } | { what: "refused"; refusal: Refusal };

/** Ids and sequence numbers that are taken; an entry judged new takes its own, so that its second copy in the parcel is seen. */
interface Known {
  readonly byId: Map<string, { readonly digest: string; readonly stamp: Stamp | null }>;
  readonly seqs: Set<string>;
}

async function readKnown(tx: TenantTx, entries: readonly Entry[]): Promise<Known> {
  const ids = [...new Set(entries.map(({ id }) => id))];
  const before = await tx.entry.findMany({
    where: { id: { in: ids } },
    select: { id: true, wire: true, receivedSeq: true, receivedAt: true, roles: true },
  });
  const places = entries.map(({ job: jobId, installation: installationId, person: personId, seq }) => ({
    jobId,
    installationId,
    personId,
    seq,
  }));
  const taken = await tx.entry.findMany({
    where: { OR: places },
    select: { jobId: true, installationId: true, personId: true, seq: true },
  });
  return {
    byId: new Map(before.map((row) => [row.id, { digest: digestOf(row.wire), stamp: stampOf(row) }])),
    seqs: new Set(taken.map((row) => placeOf(row.jobId, row.installationId, row.personId, row.seq))),
  };
}

function placeOf(job: string, installation: string, person: string, seq: number): string {
  return `${job} ${installation} ${person} ${seq}`;
}

function judgeArrival(
  member: Member,
  parsed: ReturnType<typeof entryWire.safeParse>,
  jobs: ReadonlySet<JobId>,
  known: Known,
): Arrival {
  const refused = (reason: QuarantineReason, message: string, path?: string): Arrival => ({
    what: "refused",
    refusal: { reason, message, ...(path !== undefined && { path }) },
  });
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    return refused("malformed", issue?.message ?? "not an entry", issue?.path.join(".") ?? "");
  }
  const entry = parsed.data;
  if (!isStorable(JSON.stringify(entry)))
    return refused("not-storable", "Contains a character that no database can hold.");
  if (entry.company !== member.companyId) return refused("not-this-company", "Written for another company.");
  if (entry.person !== member.personId)
    return refused("not-the-author", "Written by somebody else than who is signed in.");
  if (!jobs.has(entry.job)) return refused("unknown-job", "There is no such job in this company.");

  const digest = digestOf(entry);
  const before = known.byId.get(entry.id);
  if (before?.digest === digest) return { what: "known", entry };
  if (before) return refused("id-used-otherwise", "Another entry was received under this id.");
  if (member.roles.length === 0) return refused("no-longer-a-member", "Sent after its author had left the company.");
  if (!mayWrite(member, entry.kind))
    return refused("not-yours-to-write", `Your role does not write entries of the kind ${entry.kind}.`);
  const place = placeOf(entry.job, entry.installation, entry.person, entry.seq);
  if (known.seqs.has(place))
    return refused(
      "sequence-used-otherwise",
      `This device already sent another entry number ${entry.seq} for this job.`,
    );
  known.byId.set(entry.id, { digest, stamp: null });
  known.seqs.add(place);
  return { what: "new", entry };
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
