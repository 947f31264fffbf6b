import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { Place, Posting } from "@/lib/ledger";
import { toColumn } from "../calendar-date";
import type { Posting as PostingRow } from "../generated/client";
import type { TenantTx } from "../tenant";

export interface NewPosting extends Posting {
  /** Names the source: what is posted under it once is not posted again. */
  readonly sourceKey: string;
  readonly happenedOn: string;
  readonly scaleGrams?: number | null;
  readonly reverses?: string | null;
  readonly jobId?: string | null;
  readonly entryId?: string | null;
  readonly documentId?: string | null;
  readonly personId?: string | null;
}

/** Holds the company's books still: postings wait for each other. Taken after the locks on jobs, before those on cylinders. */
export async function lockBooks(tx: TenantTx): Promise<void> {
  await tx.$executeRaw`select pg_advisory_xact_lock(hashtextextended('ledger:' || app_tenant(), 0))`;
}

/** Posts, in the caller's transaction; a source that was posted already is left as it is. The ids of what was new. */
export async function insertPostings(tx: TenantTx, postings: readonly NewPosting[]): Promise<string[]> {
  if (postings.length === 0) return [];
  const rows = await tx.posting.createManyAndReturn({
    data: postings.map((posting) => ({
      id: uuidv7(),
      happenedOn: toColumn(posting.happenedOn)!,
      refrigerant: posting.refrigerant,
      grams: BigInt(posting.grams),
      ...columnsOf("from", posting.from),
      ...columnsOf("to", posting.to),
      cause: posting.cause,
      ownerId: posting.ownerId,
      scaleGrams: posting.scaleGrams == null ? null : BigInt(posting.scaleGrams),
      sourceKey: posting.sourceKey,
      reverses: posting.reverses ?? null,
      jobId: posting.jobId ?? null,
      entryId: posting.entryId ?? null,
      documentId: posting.documentId ?? null,
      personId: posting.personId ?? null,
    })),
    skipDuplicates: true,
    select: { id: true },
  });
  return rows.map(({ id }) => id);
}

type Side<S extends "from" | "to"> = Record<`${S}Kind`, string> &
  Record<`${S}CylinderId` | `${S}CircuitId`, string | null>;

function columnsOf<S extends "from" | "to">(side: S, place: Place): Side<S> {
  return {
    [`${side}Kind`]: place.kind,
    [`${side}CylinderId`]: place.kind === "cylinder" ? place.id : null,
    [`${side}CircuitId`]: place.kind === "circuit" ? place.id : null,
  } as Side<S>;
}

/** A row as the pure ledger knows it. */
export function postingOf(row: PostingRow): Posting {
  return {
    from: placeOf(row.fromKind, row.fromCylinderId ?? row.fromCircuitId),
    to: placeOf(row.toKind, row.toCylinderId ?? row.toCircuitId),
    refrigerant: row.refrigerant,
    grams: Number(row.grams),
    cause: row.cause as Posting["cause"],
    ownerId: row.ownerId,
  };
}

function placeOf(kind: string, id: string | null): Place {
  return (id === null ? { kind } : { kind, id }) as Place;
}
