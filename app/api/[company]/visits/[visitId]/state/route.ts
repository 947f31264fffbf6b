import * as z from "zod";
import { withTenant } from "@/lib/db/tenant";
import { isOnVisit, moveVisit } from "@/lib/db/visits";
import { answer, forMember, notHere, refuse, refuseBody } from "@/lib/http/answer";
import { readJson } from "@/lib/http/read-body";
import { VisitId } from "@/lib/ids";

const step = z.strictObject({
  to: z.enum(["on-the-way", "on-site", "left-for-today", "done"]),
  version: z.int().positive().optional(),
});

/** A technician on the visit says how far it is. */
export async function POST(request: Request, { params }: { params: Promise<{ company: string; visitId: string }> }) {
  const { company, visitId } = await params;
  return forMember(company, ["technician", "supervisor"], async (member) => {
    const id = VisitId.safeParse(visitId);
    if (!id.success) return notHere();
    const body = await readJson(request, 10_000);
    if (!body.ok) return refuseBody(body.error);
    const asked = step.safeParse(body.value);
    if (!asked.success) return refuse(400, "malformed-request", "to: on-the-way, on-site, left-for-today or done.");
    const moved = await withTenant(member.companyId, async (tx) => {
      const mine = await isOnVisit(tx, id.data, member.personId);
      if (!mine && !member.roles.includes("supervisor")) return null;
      return moveVisit(tx, id.data, asked.data.to, member.personId, asked.data.version);
    });
    if (moved === null || (!moved.ok && moved.error.code === "not-found")) return notHere();
    if (moved.ok) return answer({ state: moved.value });
    return refuse(
      409,
      moved.error.code,
      "The visit was changed meanwhile, or cannot go there from where it is.",
      moved.error,
    );
  });
}
