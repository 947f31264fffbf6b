import "server-only";
import type { JobState, LogEntry } from "@/lib/hvac/procedure";
import { massMoves } from "@/lib/hvac/procedure";
import type { JobId } from "@/lib/ids";
import {
  circuit,
  contentAfterJob,
  foundShortGrams,
  type JobLine,
  jobLines,
  reconcile,
  reversalOf,
  type StandingLine,
  toGrams,
} from "@/lib/ledger";
import { dayAt } from "@/lib/work/site-time";
import type { TenantTx } from "../tenant";
import { eventsOfJob } from "./job-events";
import { insertPostings, lockBooks, type NewPosting, postingOf } from "./posting-rows";

/**
 * Brings the books to what a job's log says now: postings that no longer hold are reversed, new ones made. Nothing is changed where
 * nothing changed, so it may run after every entry. The caller holds the job's lock.
 */
export async function postJob(
  tx: TenantTx,
  jobId: JobId,
  state: JobState,
  entries: readonly LogEntry[],
): Promise<void> {
  const moves = massMoves(entries);
  const earlier = await tx.posting.findMany({ where: { jobId }, orderBy: { postedAt: "asc" } });
  await eventsOfJob(tx, jobId, state, entries);
  if (moves.length === 0 && earlier.length === 0) return;
  const job = await tx.circuitJob.findFirstOrThrow({
    where: { id: jobId },
    select: {
      circuit: { select: { id: true, factoryChargeKg: true } },
      workOrder: {
        select: { serviceCall: { select: { customerId: true, site: { select: { timeZone: true } } } } },
      },
    },
  });
  const { customerId, site } = job.workOrder.serviceCall;
  const named = moves.flatMap(({ cylinderId }) => (cylinderId === null ? [] : [cylinderId as string]));
  const known = await tx.cylinder.findMany({ where: { id: { in: named } }, select: { id: true } });
  const expected = jobLines(moves, {
    circuitId: job.circuit.id,
    customerId,
    refrigerant: state.circuit?.refrigerant ?? { state: "unknown" },
    cylinders: new Set(known.map(({ id }) => id)),
  });
  const reversed = new Set(earlier.map(({ reverses }) => reverses));
  const standing = earlier.filter(({ id, reverses }) => reverses === null && !reversed.has(id));
  const lines = standing.flatMap((row): StandingLine[] =>
    row.cause === "found-short" ? [] : [{ ...postingOf(row), id: row.id, key: lineKey(row.sourceKey) }],
  );
  const { reverse, post } = reconcile(lines, expected);
  const content = contentAfterJob(state, entries, moves, fullChargeOf(job.circuit.factoryChargeKg));
  const short = standing.find(({ cause }) => cause === "found-short") ?? null;
  if (reverse.length + post.length === 0 && (content === null) === (short === null)) return;

  await lockBooks(tx);
  const generation = earlier.length;
  const now = (at: string) => dayAt(new Date(at), site.timeZone);
  const today = dayAt(new Date(), site.timeZone);
  const undo = (row: (typeof earlier)[number]): NewPosting => ({
    ...reversalOf(postingOf(row)),
    happenedOn: row.happenedOn.toISOString().slice(0, 10),
    reverses: row.id,
    sourceKey: `reverses:${row.id}`,
    jobId,
    entryId: row.entryId,
    personId: row.personId,
  });
  const gone = standing.filter(({ id }) => reverse.some((line) => line.id === id));
  await insertPostings(tx, [
    ...gone.map(undo),
    ...post.map((line) => ({ ...line, ...sourceOf(line), happenedOn: now(line.at), jobId })),
  ]);
  if (short !== null) await insertPostings(tx, [undo(short)]);
  if (content !== null) await postFoundShort(tx, jobId, job.circuit.id, content, generation, today);

  function sourceOf({ key, entry, person }: JobLine) {
    return { sourceKey: `job:${jobId}:${key}:${generation}`, entryId: entry, personId: person };
  }
}

/** What the books still have in the circuit beyond what turned out to be there had leaked: it goes to the air, by a posting. */
async function postFoundShort(
  tx: TenantTx,
  jobId: JobId,
  circuitId: string,
  contentGrams: number,
  generation: number,
  happenedOn: string,
): Promise<void> {
  const held = await tx.refrigerantBalance.findMany({
    where: { placeKind: "circuit", placeId: circuitId, grams: { not: 0 } },
  });
  const [only, ...others] = held;
  if (only === undefined || others.length > 0) return; // two refrigerants in one circuit: an exception for a person
  const grams = foundShortGrams(Number(only.grams), contentGrams);
  if (grams === 0 || (await wasFilledSince(tx, jobId, circuitId))) return;
  await insertPostings(tx, [
    {
      from: circuit(circuitId),
      to: { kind: "loss" },
      refrigerant: only.refrigerant,
      grams,
      cause: "found-short",
      ownerId: null,
      happenedOn,
      jobId,
      sourceKey: `job:${jobId}:found-short:${generation}`,
    },
  ]);
}

/** A later job has used the circuit: what it holds now says nothing about this one any more. */
async function wasFilledSince(tx: TenantTx, jobId: JobId, circuitId: string): Promise<boolean> {
  const first = await tx.posting.findFirst({ where: { jobId }, orderBy: { postedAt: "asc" } });
  const later = await tx.posting.count({
    where: {
      OR: [{ fromCircuitId: circuitId }, { toCircuitId: circuitId }],
      jobId: { not: jobId },
      postedAt: { gt: first?.postedAt ?? new Date() },
    },
  });
  return later > 0;
}

function lineKey(sourceKey: string): string {
  return sourceKey.split(":")[2] ?? "";
}

function fullChargeOf(factoryChargeKg: number | null): number | null {
  return factoryChargeKg === null ? null : toGrams(factoryChargeKg);
}
