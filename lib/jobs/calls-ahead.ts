import "server-only";
import { makeMaintenanceCalls } from "@/lib/db/maintenance";
import { callForDuty, refreshDuties } from "@/lib/db/refrigerant/duties";
import { BULK_TIMEOUT_MS, withTenant } from "@/lib/db/tenant";
import { type CompanyId, PersonId } from "@/lib/ids";
import type { Work } from "./job";

/** A duty stands at the board's edge this long before its last day. */
const DUTY_LEAD_DAYS = 30;
const AT_ONCE = 200;

/** The day's calls that nobody rings for: of maintenance plans, and of legal duties whose last day is near. */
export const makeCallsAhead: Work = async ({ company }) => {
  await withTenant(company, (tx) => makeMaintenanceCalls(tx, new Date()), BULK_TIMEOUT_MS);
  await callForDuties(company);
  return undefined;
};

async function callForDuties(company: CompanyId): Promise<void> {
  while ((await withTenant(company, (tx) => refreshDuties(tx), BULK_TIMEOUT_MS)) > 0);
  await withTenant(
    company,
    async (tx) => {
      const due = await tx.$queryRaw<{ circuitId: string; code: string; since: string }[]>`
        select circuit_id as "circuitId", code, since::text from duty
        where done_on is null and call_id is null and due_by <= current_date + ${DUTY_LEAD_DAYS}::integer
        order by due_by limit ${AT_ONCE}`;
      // A call is taken by somebody: here by whoever answers for the law in this company longest.
      const answering = await tx.member.findFirst({
        where: { active: true, roles: { hasSome: ["supervisor", "owner"] } },
        orderBy: [{ joinedAt: "asc" }, { personId: "asc" }],
        select: { personId: true },
      });
      if (answering) for (const duty of due) await callForDuty(tx, duty, PersonId.parse(answering.personId));
    },
    BULK_TIMEOUT_MS,
  );
}
