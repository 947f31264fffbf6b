import * as z from "zod";
import { findPicture, receivePicture } from "@/lib/db/pictures";
import { withTenant } from "@/lib/db/tenant";
import { answer, atAddress, notHere, refuse, refuseBody } from "@/lib/http/answer";
import { readBytes } from "@/lib/http/read-body";
import { AttachmentId, JobId } from "@/lib/ids";
import { MAX_PICTURE_BYTES, SALT_BYTES } from "@/lib/sync/picture";

const address = z.object({ company: z.string(), jobId: JobId, pictureId: AttachmentId });
type Context = { params: Promise<Record<"company" | "jobId" | "pictureId", string>> };

/** A device sends a photo or a signature; sending it again changes nothing, also when it was erased meanwhile. */
export async function PUT(request: Request, context: Context) {
  return atAddress(context, address, async (member, at) => {
    const body = await readBytes(request, MAX_PICTURE_BYTES + SALT_BYTES);
    if (!body.ok) return refuseBody(body.error);
    const stored = await receivePicture(member.companyId, { ...at, personId: member.personId }, body.value);
    if (stored.ok) return answer({ digest: stored.value });
    switch (stored.error.code) {
      case "not-found":
        return notHere();
      case "not-a-picture":
        return refuse(400, "not-a-picture", "This is not a JPEG or PNG picture with its salt before it.");
      case "carries-metadata":
        return refuse(400, "carries-metadata", "This picture still says where or with what it was taken.");
      case "too-large":
        return refuse(413, "too-large", `The picture is larger than ${MAX_PICTURE_BYTES} bytes.`);
      case "used-otherwise":
        return refuse(409, "used-otherwise", "Another picture with this number was received before.");
    }
  });
}

/** The picture, for members of the company; nothing in it can act as a page. */
export async function GET(_request: Request, context: Context) {
  return atAddress(context, address, async (member, at) => {
    const found = await withTenant(member.companyId, (tx) => findPicture(tx, at.jobId, at.pictureId));
    if (found === null) return notHere();
    if (found === "erased") return refuse(410, "erased", "This picture was erased; the log keeps its hash.");
    return new Response(found.bytes, {
      headers: {
        "content-type": found.media,
        "cache-control": "no-store",
        "content-security-policy": "default-src 'none'; sandbox",
      },
    });
  });
}
