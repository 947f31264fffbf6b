import type { EntryId } from "@/lib/ids";
import type { Entry, LogEntry, LogEntryOf } from "../log/entry";
import { wireOf } from "../log/merge";
import type { OrderedLog } from "../log/order";
import type { JobGround } from "./job-ground";
import type { FoldTools } from "./judge-record";
import type { Missing, NoEffect } from "./state";
import { type NoEffectCode, noEffectText } from "./words";

export interface ClosingRead {
  readonly closedBy: EntryId | null;
  readonly reopenedBy: readonly EntryId[];
  readonly certificate: "none" | "valid" | "stale";
  readonly withoutEffect: readonly NoEffect[];
  readonly heads: readonly EntryId[];
}

/**
 * Whether the job is closed: one closing entry has seen every other entry, carries their heads and digest, and
 * nothing was missing. A closing that was sound when written, and has not seen everything, is a stale certificate.
 */
export function readClosing(
  ground: JobGround,
  missingNow: readonly Missing[],
  tools: FoldTools,
  missingIn: (part: readonly LogEntry[]) => readonly Missing[],
): ClosingRead {
  const { log } = ground;
  const withoutEffect: NoEffect[] = [];
  let last: { readonly index: number; readonly entry: LogEntry } | null = null;
  for (const [index, entry] of log.entries.entries()) {
    if (entry.kind !== "job-closed") continue;
    const fault = faultOf(log, index, entry, missingNow, tools, missingIn);
    if (fault === null) last = { index, entry };
    else if (entry.supersedes === undefined)
      withoutEffect.push({ entry: entry.id, code: fault, text: noEffectText(fault) });
  }
  const heads = headsWhere(log, () => true);
  if (last === null) return { closedBy: null, reopenedBy: [], certificate: "none", withoutEffect, heads };
  const { index, entry } = last;
  const unseen = log.entries.filter((other, at) => other !== entry && !log.before(at, index));
  const reopenedBy = [...unseen, ...log.circular].map(({ id }) => id);
  const closed = reopenedBy.length === 0;
  return {
    closedBy: closed ? entry.id : null,
    reopenedBy,
    certificate: closed ? "valid" : "stale",
    withoutEffect,
    heads,
  };
}

function faultOf(
  log: OrderedLog,
  index: number,
  entry: LogEntryOf<"job-closed">,
  missingNow: readonly Missing[],
  tools: FoldTools,
  missingIn: (part: readonly LogEntry[]) => readonly Missing[],
): NoEffectCode | null {
  if (entry.supersedes !== undefined) return "not-correctable";
  const covered = log.entries.filter((_, at) => log.before(at, index));
  const coversAll = covered.length === log.entries.length - 1 && log.circular.length === 0;
  const missing = coversAll ? missingNow : missingIn(covered);
  if (missing.length > 0) return "close-not-proven";
  const heads = headsWhere(log, (at) => log.before(at, index));
  if (!sameIds(heads, entry.body.heads) || !sameIds(heads, entry.heads)) return "close-heads-differ";
  const wires: Entry[] = covered.map(wireOf);
  return tools.closingDigest(wires, heads) === entry.body.digest ? null : "close-digest-differs";
}

/** Within a part of the log, the entries that no other one of it has seen. */
function headsWhere(log: OrderedLog, within: (index: number) => boolean): EntryId[] {
  const inside = log.entries.flatMap((_, index) => (within(index) ? [index] : []));
  const heads = inside.filter((index) => !inside.some((other) => log.before(index, other)));
  return heads.map((index) => log.entries[index]!.id).sort();
}

function sameIds(a: readonly EntryId[], b: readonly EntryId[]): boolean {
  const sorted = [...b].sort();
  return a.length === sorted.length && a.every((id, index) => id === sorted[index]);
}
