import { tabletKey } from "@/lib/db/tablet-key";
import { withTenant } from "@/lib/db/tenant";
import { answer, forMemberOrFormer } from "@/lib/http/answer";
import { unitSystemOf } from "@/lib/registry/company";

/** Who the tablet works for, and the key that opens what this person left unsent on it; also for who has left and still has some. */
export async function GET(_request: Request, { params }: { params: Promise<{ company: string }> }) {
  return forMemberOrFormer((await params).company, async (member) => {
    const key = await withTenant(member.companyId, (tx) => tabletKey(tx, member.personId));
    return answer({
      person: { id: member.personId, name: member.name },
      company: { id: member.companyId, slug: member.slug, name: member.companyName },
      roles: member.roles,
      units: unitSystemOf(member.ruleSet),
      tabletKey: Buffer.from(key).toString("base64"),
    });
  });
}
