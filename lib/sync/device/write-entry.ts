import { v7 } from "uuid";
import type { Entry, EntryContent, LogEntry } from "@/lib/hvac/procedure";
import type { EntryId, JobId } from "@/lib/ids";
import { type Author, headsOf, makeEntry, unstamped } from "../protocol";
import type { Shelves } from "./device-disk";
import type { DeviceLocks } from "./device-lock";
import type { Desk } from "./device-rows";
import { clockOffsetMs, type DeviceStore, installationId } from "./device-store";

/**
 * Writes one entry to disk and returns it: when this resolves, the entry is saved here.
 *
 * Sequence and heads are taken in the same transaction that saves the entry, under the device's lock, so that two tabs
 * cannot give out one number twice and a kill in between leaves neither a number without an entry nor an entry without one.
 * What `check` throws leaves nothing saved.
 */
export async function writeEntry(
  store: DeviceStore,
  locks: DeviceLocks,
  desk: Desk,
  job: JobId,
  content: EntryContent | ((seen: readonly LogEntry[], heads: readonly EntryId[]) => EntryContent),
  options: { readonly now?: () => number; readonly check?: (entry: Entry) => void } = {},
): Promise<Entry> {
  const installation = await installationId(store);
  return locks.run(`write ${desk.company} ${job}`, () =>
    store.transaction("rw", ["outbox", "log", "sequences", "kept"], async (tx) => {
      const seen = await listJobEntries(tx, desk, job);
      const heads = headsOf(seen);
      const last = (await tx.sequences.get([installation, desk.person, job]))?.last ?? 0;
      const author: Author = { company: desk.company, job, installation, person: desk.person };
      const nowMs = (options.now ?? Date.now)();
      const entry = makeEntry(
        author,
        {
          id: v7({ msecs: nowMs }) as EntryId,
          seq: Math.max(last, highestSeq(seen, author)) + 1,
          heads,
          deviceAt: new Date(nowMs).toISOString(),
          clockOffsetMs: await clockOffsetMs(tx.kept),
        },
        typeof content === "function" ? content(seen, heads) : content,
      );
      options.check?.(entry);
      await tx.sequences.put({ installation, person: desk.person, job, last: entry.seq });
      await tx.outbox.add({ ...desk, job, id: entry.id, entry, problem: null });
      return entry;
    }),
  );
}

/** The job's log as this person sees it here: what the server gave, and own entries not yet sent. */
export async function listJobEntries(
  shelves: Pick<Shelves, "log" | "outbox">,
  desk: Desk,
  job: JobId,
): Promise<LogEntry[]> {
  const key = [desk.company, desk.person, job];
  const [fromServer, own] = await Promise.all([
    shelves.log.list("company+person+job", key),
    shelves.outbox.list("company+person+job", key),
  ]);
  const known = new Set(fromServer.map((row) => row.id));
  const waiting = own.filter((row) => row.problem === null && !known.has(row.id));
  return [...fromServer.map((row) => row.entry), ...waiting.map((row) => unstamped(row.entry))];
}

function highestSeq(seen: readonly LogEntry[], author: Author): number {
  return seen.reduce(
    (highest, entry) =>
      entry.installation === author.installation && entry.person === author.person
        ? Math.max(highest, entry.seq)
        : highest,
    0,
  );
}
