import type { Stamp } from "@/lib/hvac/procedure";
import type { EntryId } from "@/lib/ids";
import { stamped } from "../protocol";
import type { Signed } from "../receipt";
import type { Shelf } from "./device-disk";
import type { ChunkRow, Desk, OutboxRow } from "./device-rows";
import type { DeviceStore } from "./device-store";
import { listOwedPictures } from "./pictures";

const MOST_ENTRIES = 200;
const MOST_BYTES = 900_000;

/** What the server answers to a batch of entries. */
export interface EntriesAnswer {
  readonly receipts: readonly { readonly id: EntryId; readonly stamp: Stamp; readonly signed?: Signed }[];
  readonly quarantined: readonly {
    readonly index: number;
    readonly id: string | null;
    readonly reason: string;
    readonly message: string;
  }[];
}

export interface OutboxCount {
  /** Saved here, to be sent. */
  readonly waiting: number;
  /** Answered by the server with a problem; kept here. */
  readonly problems: number;
}

/** The next entries to send, oldest first, as many as one request carries; always one, however long. */
export async function nextBatch(store: DeviceStore, desk: Desk, most = MOST_ENTRIES): Promise<OutboxRow[]> {
  const rows = (await ownRows(store, desk)).filter((row) => row.problem === null).slice(0, most);
  let bytes = 0;
  const fitting = rows.findIndex((row) => {
    bytes += new TextEncoder().encode(JSON.stringify(row.entry)).length;
    return bytes > MOST_BYTES;
  });
  return fitting < 0 ? rows : rows.slice(0, Math.max(1, fitting));
}

/** Takes the answer to a batch: received entries move into the log, others keep the server's reason. All at once. */
export async function takeAnswer(
  store: DeviceStore,
  desk: Desk,
  batch: readonly OutboxRow[],
  answer: EntriesAnswer,
): Promise<void> {
  await store.transaction("rw", ["outbox", "log"], async (tx) => {
    const byId = new Map(batch.map((row) => [row.id, row]));
    for (const { id, stamp, signed } of answer.receipts) {
      const row = byId.get(id);
      if (!row || (await tx.outbox.list("id", id)).length === 0) continue; // its writer has signed out meanwhile
      const { company, person } = desk;
      await tx.log.put({
        company,
        person,
        job: row.job,
        id,
        entry: stamped(row.entry, stamp),
        ...(signed && { signed }),
      });
      await dropById(tx.outbox, id);
    }
    for (const { index, reason, message } of answer.quarantined) {
      const row = batch[index];
      const [kept] = row ? await tx.outbox.list("id", row.id) : [];
      if (kept) await tx.outbox.put({ ...kept, problem: { code: reason, message } });
    }
  });
}

export async function countOutbox(store: DeviceStore, desk: Desk): Promise<OutboxCount> {
  const rows = await ownRows(store, desk);
  const chunks = (await listOwedChunks(store, desk)).length;
  const pictures = (await listOwedPictures(store, desk)).length;
  const problems = rows.filter((row) => row.problem !== null).length;
  return { waiting: rows.length - problems + chunks + pictures, problems };
}

export async function listProblems(store: DeviceStore, desk: Desk): Promise<OutboxRow[]> {
  return (await ownRows(store, desk)).filter((row) => row.problem !== null);
}

async function ownRows(store: DeviceStore, desk: Desk): Promise<OutboxRow[]> {
  const rows = await store.outbox.list("company+person", [desk.company, desk.person]);
  return rows.sort((a, b) => (a.order ?? 0) - (b.order ?? 0));
}

export async function listOwedChunks(store: DeviceStore, desk: Desk): Promise<ChunkRow[]> {
  const rows = await store.chunks.list("company+person", [desk.company, desk.person]);
  return rows.filter((row) => row.sentAt === null);
}

/** An entry is no longer owed. */
export async function dropById(outbox: Shelf<OutboxRow>, id: EntryId): Promise<void> {
  for (const row of await outbox.list("id", id)) await outbox.delete(row.order as number);
}
