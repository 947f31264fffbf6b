import { listFieldDays } from "@/lib/db/field-work";
import { withTenant } from "@/lib/db/tenant";
import { answer, forMember } from "@/lib/http/answer";

/** The signed-in technician's visits of today and tomorrow, with what is needed to work on them. */
export async function GET(_request: Request, { params }: { params: Promise<{ company: string }> }) {
  return forMember((await params).company, ["technician", "supervisor"], async (member) => {
    const visits = await withTenant(member.companyId, (tx) =>
      listFieldDays(tx, member.personId, member.timeZone, new Date()),
    );
    const person = { id: member.personId, name: member.name };
    return answer({ person, company: { id: member.companyId, slug: member.slug, name: member.companyName }, visits });
  });
}
