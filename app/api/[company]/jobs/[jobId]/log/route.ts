import * as z from "zod";
import { readFieldJob } from "@/lib/db/field-work";
import { withTenant } from "@/lib/db/tenant";
import { answer, forMember, notHere, refuse } from "@/lib/http/answer";
import { JobId } from "@/lib/ids";

const after = z.coerce.number<string>().int().min(0);

/** A job's log from a point on, with what a device needs to work on it. */
export async function GET(request: Request, { params }: { params: Promise<{ company: string; jobId: string }> }) {
  const { company, jobId } = await params;
  return forMember(company, [], async (member) => {
    const id = JobId.safeParse(jobId);
    if (!id.success) return notHere();
    const from = after.safeParse(new URL(request.url).searchParams.get("after") ?? "0");
    if (!from.success)
      return refuse(400, "malformed-request", "after: a whole number, the last received sequence you have.");
    const job = await withTenant(member.companyId, (tx) => readFieldJob(tx, id.data, from.data));
    return job ? answer(job) : notHere();
  });
}
