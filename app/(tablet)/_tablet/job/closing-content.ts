import type { EntryContent, LogEntry } from "@/lib/hvac/procedure";
import type { EntryId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { wireOf } from "@/lib/sync/protocol";

/** The closing entry over everything seen at the moment of writing. */
export function closingContent(seen: readonly LogEntry[], heads: readonly EntryId[]): EntryContent {
  const digest = closingDigest(seen.map(wireOf), heads);
  return { kind: "job-closed", body: { heads: [...heads], digest } };
}
