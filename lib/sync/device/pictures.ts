import { v7 } from "uuid";
import type { AttachmentId, JobId } from "@/lib/ids";
import { packPicture, SALT_BYTES, saltedDigest } from "../picture";
import type { Shelves } from "./device-disk";
import type { Desk, PictureRow } from "./device-rows";
import type { DeviceStore } from "./device-store";

/** How an entry names a picture. */
export interface PictureReference {
  readonly attachment: AttachmentId;
  readonly saltedDigest: string;
}

/** Keeps a picture on disk and gives the reference an entry names it by; it is sent once an entry does. */
export async function keepPicture(
  store: DeviceStore,
  desk: Desk,
  job: JobId,
  bytes: Uint8Array<ArrayBuffer>,
): Promise<PictureReference> {
  const salt = crypto.getRandomValues(new Uint8Array(SALT_BYTES));
  const row = { id: v7() as AttachmentId, job, salt, bytes, digest: saltedDigest({ salt, bytes }), sentAt: null };
  await store.pictures.add({ ...desk, ...row });
  return { attachment: row.id, saltedDigest: row.digest };
}

/** Throws a picture away that no entry names yet. */
export async function dropPicture(store: DeviceStore, desk: Desk, id: AttachmentId): Promise<void> {
  const row = await store.pictures.get(id);
  if (row && (await listNamed(store, desk, [row])).length === 0) await store.pictures.delete(id);
}

export async function findPicture(store: DeviceStore, desk: Desk, id: AttachmentId): Promise<PictureRow | null> {
  const row = await store.pictures.get(id);
  return row?.company === desk.company && row.person === desk.person ? row : null;
}

/** Pictures the server does not have yet and that entries name: what is only in a draft may still be thrown away. */
export async function listOwedPictures(store: DeviceStore, desk: Desk): Promise<PictureRow[]> {
  const rows = await store.pictures.list("company+person", [desk.company, desk.person]);
  return listNamed(
    store,
    desk,
    rows.filter(({ sentAt }) => sentAt === null),
  );
}

async function listNamed(
  shelves: Pick<Shelves, "outbox" | "log">,
  desk: Desk,
  rows: readonly PictureRow[],
): Promise<PictureRow[]> {
  const logs = new Map<JobId, string>();
  for (const { job } of rows) {
    if (logs.has(job)) continue;
    const key = [desk.company, desk.person, job];
    const kept = [
      await shelves.outbox.list("company+person+job", key),
      await shelves.log.list("company+person+job", key),
    ];
    logs.set(job, JSON.stringify(kept.flat().map(({ entry }) => entry)));
  }
  return rows.filter(({ id, job }) => logs.get(job)?.includes(id));
}

/** The body of the request that sends it. */
export const pictureBody = ({ salt, bytes }: PictureRow): Uint8Array<ArrayBuffer> => packPicture({ salt, bytes });
