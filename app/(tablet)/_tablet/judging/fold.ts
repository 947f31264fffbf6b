import type { EntryContent, JobState, LogEntry } from "@/lib/hvac/procedure";
import { foldJob } from "@/lib/hvac/procedure";
import type { EntryId, TraceId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { headsOf, unstamped, wireOf } from "@/lib/sync/protocol";
import { rememberedJudges } from "@/lib/sync/remembered-judges";
import { type KnownTrace, traceShelf } from "@/lib/sync/trace";

/** The job's state, by the same functions the server uses. */
export function foldHere(entries: Iterable<LogEntry>, traces: ReadonlyMap<TraceId, KnownTrace>): JobState {
  return foldJob(entries, { judges: rememberedJudges, traces: traceShelf(traces), closingDigest });
}

/** What the job would be with one more entry of this person; nothing is saved. */
export function foldWith(
  entries: readonly LogEntry[],
  traces: ReadonlyMap<TraceId, KnownTrace>,
  content: EntryContent,
): JobState | null {
  const [any] = entries;
  if (!any) return null;
  const heads = headsOf(entries);
  const tried = unstamped({
    ...wireOf(any),
    id: "ffffffff-ffff-7fff-bfff-ffffffffffff" as EntryId,
    seq: 1,
    installation: "00000000-0000-4000-8000-000000000000",
    heads,
    deviceAt: new Date().toISOString(),
    clockOffsetMs: null,
    ...content,
  } as Parameters<typeof unstamped>[0]); // kind and body are paired in the content
  return foldHere([...entries, tried], traces);
}
