import type { EntryId } from "@/lib/ids";
import type { Entry, LogEntry } from "./entry";

/** One writer's chain on one job: its entries follow each other by sequence, whatever heads they name. */
export function chainOf(entry: Pick<Entry, "installation" | "person">): string {
  return `${entry.installation} ${entry.person}`;
}

/** The wire form alone, without the stamp: what is sent, and what digests are taken over. */
export function wireOf(entry: Entry | LogEntry): Entry {
  const { stamp: _stamp, ...wire } = entry as LogEntry;
  return wire as Entry;
}

/** Two different entries under one id: one of them is kept, and it is said. */
export interface MergeOutcome {
  readonly entries: LogEntry[];
  readonly conflicts: EntryId[];
}

/**
 * The union of entry sets by id, sorted by id. A copy with the server's stamp stands before one without, so a resend
 * changes nothing. Two different contents under one id are named in `conflicts`; the stamped one is kept, else the
 * one whose text sorts first, so that every device keeps the same.
 */
export function mergeEntries(...sets: readonly Iterable<LogEntry>[]): MergeOutcome {
  const byId = new Map<EntryId, LogEntry>();
  const conflicts = new Set<EntryId>();
  for (const set of sets) {
    for (const entry of set) {
      const known = byId.get(entry.id);
      if (known === undefined) byId.set(entry.id, entry);
      else if (known !== entry) {
        if (keyOrderFree(wireOf(known)) !== keyOrderFree(wireOf(entry))) conflicts.add(entry.id);
        byId.set(entry.id, preferred(known, entry));
      }
    }
  }
  const entries = [...byId.values()].sort((a, b) => inOrder(a.id, b.id));
  return { entries, conflicts: [...conflicts].sort() };
}

export function inOrder(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function preferred(a: LogEntry, b: LogEntry): LogEntry {
  if ((a.stamp === null) !== (b.stamp === null)) return a.stamp === null ? b : a;
  return keyOrderFree(a) <= keyOrderFree(b) ? a : b;
}

/** Text that does not depend on the order in which keys were written. */
export function keyOrderFree(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    part !== null && typeof part === "object" && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => inOrder(a, b)))
      : part,
  );
}
