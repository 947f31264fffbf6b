import "server-only";
import type { AttachmentId, JobId, PersonId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import { type PictureProblem, saltedDigest, unpackPicture } from "@/lib/sync/picture";
import { recordOfficeEvent } from "./office-events";
import { type TenantTx, withTenant } from "./tenant";

export type PictureRefusal = PictureProblem | { code: "not-found" } | { code: "used-otherwise" };

/** Takes one picture of a job, or finds it received already, also when it was erased since; its salted hash in hex once it is committed. */
export async function receivePicture(
  company: Parameters<typeof withTenant>[0],
  at: { jobId: JobId; pictureId: AttachmentId; personId: PersonId },
  packed: Uint8Array,
): Promise<Result<string, PictureRefusal>> {
  const picture = unpackPicture(packed);
  if (!picture.ok) return picture;
  const { salt, bytes, media } = picture.value;
  const digest = saltedDigest({ salt, bytes });
  const { jobId, pictureId: id, personId } = at;
  return withTenant(company, async (tx) => {
    if ((await tx.circuitJob.count({ where: { id: jobId } })) === 0) return err({ code: "not-found" });
    const row = { id, jobId, personId, mediaType: media };
    const content = { salt: Buffer.from(salt), bytes: Buffer.from(bytes), saltedDigest: Buffer.from(digest, "hex") };
    await tx.jobPicture.createMany({ data: [{ ...row, ...content }], skipDuplicates: true });
    const stored = await tx.jobPicture.findFirst({ where: { id, jobId }, select: { saltedDigest: true } });
    const same = stored && Buffer.from(stored.saltedDigest).toString("hex") === digest;
    return same ? ok(digest) : err({ code: "used-otherwise" });
  });
}

/** A picture as it was received; null where there is none, "erased" where it was taken away. */
export async function findPicture(
  tx: TenantTx,
  jobId: JobId,
  id: AttachmentId,
): Promise<{ bytes: Uint8Array<ArrayBuffer>; media: string } | "erased" | null> {
  const row = await tx.jobPicture.findFirst({ where: { id, jobId }, select: { bytes: true, mediaType: true } });
  if (!row) return null;
  return row.bytes ? { bytes: row.bytes, media: row.mediaType } : "erased";
}

/** Which pictures of a job are here and which were erased, by id. */
export async function listPictures(tx: TenantTx, jobId: JobId): Promise<ReadonlyMap<string, "here" | "erased">> {
  const rows = await tx.jobPicture.findMany({ where: { jobId }, select: { id: true, erasedAt: true } });
  return new Map(rows.map(({ id, erasedAt }) => [id, erasedAt ? "erased" : "here"]));
}

/** Takes a picture away for good, with its event; the log keeps the hash. False when there is none to take away. */
export async function erasePicture(tx: TenantTx, jobId: JobId, id: AttachmentId, by: PersonId): Promise<boolean> {
  const { count } = await tx.jobPicture.updateMany({
    where: { id, jobId, erasedAt: null },
    data: { bytes: null, salt: null, erasedAt: new Date(), erasedBy: by },
  });
  if (count === 0) return false;
  await recordOfficeEvent(tx, by, {
    what: "picture-erased",
    subject: "circuit-job",
    subjectId: jobId,
    detail: { picture: id },
  });
  return true;
}
