import type { Entry, EntryContent, LogEntry, Stamp } from "@/lib/hvac/log/entry";
import { chainOf, inOrder, wireOf } from "@/lib/hvac/log/merge";
import type { CompanyId, EntryId, InstallationId, JobId, PersonId } from "@/lib/ids";

export { type MergeOutcome, mergeEntries, wireOf } from "@/lib/hvac/log/merge";

/** Who writes and where: what all entries of one device on one job share. */
export interface Author {
  readonly company: CompanyId;
  readonly job: JobId;
  readonly installation: InstallationId;
  readonly person: PersonId;
}
/** What the device gives an entry at the moment of writing; the sequence is handed out under the device's lock. */
export interface Writing {
  readonly id: EntryId;
  readonly seq: number;
  readonly heads: readonly EntryId[];
  readonly deviceAt: string;
  readonly clockOffsetMs: number | null;
}

/** The wire form of a new entry. Heads are sorted, so that the same view of the log is written the same way. */
export function makeEntry(author: Author, writing: Writing, content: EntryContent): Entry {
  return {
    id: writing.id,
    company: author.company,
    job: author.job,
    installation: author.installation,
    person: author.person,
    seq: writing.seq,
    heads: [...writing.heads].sort(),
    deviceAt: writing.deviceAt,
    clockOffsetMs: writing.clockOffsetMs,
    ...content,
  } as Entry; // content pairs kind and body; the spread loses the pairing for the compiler
}

/** The sequence number a device's next entry on this job carries: one more than the highest it has given out. */
export function nextSeq(entries: Iterable<Entry>, author: Author): number {
  let highest = 0;
  for (const entry of entries) {
    if (entry.installation === author.installation && entry.person === author.person && entry.job === author.job) {
      highest = Math.max(highest, entry.seq);
    }
  }
  return highest + 1;
}

/** The entries nobody in the set has seen yet: what a new entry names as the heads it was written on. */
export function headsOf(entries: Iterable<Entry>): EntryId[] {
  const all = [...entries];
  const seen = new Set(all.flatMap((entry) => entry.heads));
  const latest = new Map<string, number>();
  for (const entry of all) latest.set(chainOf(entry), Math.max(latest.get(chainOf(entry)) ?? 0, entry.seq));
  const heads = all.filter((entry) => !seen.has(entry.id) && latest.get(chainOf(entry)) === entry.seq);
  return [...new Set(heads.map((entry) => entry.id))].sort();
}

/** A local entry as the log holds it before the server has seen it. Whatever the device claims, it has no stamp. */
export function unstamped(entry: Entry): LogEntry {
  return { ...wireOf(entry), stamp: null };
}

export function stamped(entry: Entry, stamp: Stamp): LogEntry {
  return { ...wireOf(entry), stamp };
}

/** Own entries the server has not acknowledged, in the order they must be sent. */
export function listOwed(local: Iterable<LogEntry>, installation: InstallationId): LogEntry[] {
  return [...local]
    .filter((entry) => entry.stamp === null && entry.installation === installation)
    .sort((a, b) => inOrder(chainOf(a), chainOf(b)) || a.seq - b.seq || inOrder(a.id, b.id));
}

/** Ids the entries name as seen that are not in the set: what has to be fetched before the log is whole. */
export function listMissing(entries: Iterable<Entry>): EntryId[] {
  const all = [...entries];
  const known = new Set(all.map((entry) => entry.id));
  return [...new Set(all.flatMap((entry) => entry.heads))].filter((id) => !known.has(id)).sort();
}

/**
 * What the closing digest is taken over: every entry by its own digest, sorted by id, with the heads it closes on.
 * Traces stand in it through the digests their entries carry, photos and signatures through their salted hashes.
 */
export function closingInput(
  entries: readonly Entry[],
  heads: readonly EntryId[],
  entryDigest: (wire: Entry) => string,
): ClosingInput {
  const digests = entries.map((entry) => ({ id: entry.id, digest: entryDigest(wireOf(entry)) }));
  digests.sort((a, b) => (a.id < b.id ? -1 : 1));
  return { form: 1, job: entries[0]?.job ?? null, heads: [...heads].sort(), entries: digests };
}

export interface ClosingInput {
  readonly form: 1;
  readonly job: JobId | null;
  readonly heads: readonly EntryId[];
  readonly entries: readonly { readonly id: EntryId; readonly digest: string }[];
}
