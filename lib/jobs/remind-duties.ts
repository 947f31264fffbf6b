import "server-only";
import { listDutiesToRemind } from "@/lib/db/refrigerant/duties";
import { type TenantTx, withTenant } from "@/lib/db/tenant";
import { DEFERRAL, DUTY_WORDS } from "@/lib/duties";
import type { CompanyId } from "@/lib/ids";
import type { Mail, SendMail } from "@/lib/messages/mail";
import { dateWords } from "@/lib/work/site-time";
import type { Work } from "./job";

/**
 * Tells supervisors and owners by mail of duties 30, 7 and 1 days before their last day, on it and the day after: one mail a
 * person and day. Done again, a mail carries the same id, by which it is shown once.
 */
export function remindOfDuties(send: () => SendMail): Work {
  return async ({ company }) => {
    const mails = await withTenant(company, (tx) => write(tx, company, new Date()));
    const deliver = send();
    for (const mail of mails) if ((await deliver(mail)).became === "put-off") return "put-off";
    return undefined;
  };
}

async function write(tx: TenantTx, company: CompanyId, now: Date): Promise<readonly Mail[]> {
  const duties = await listDutiesToRemind(tx, now);
  if (duties.length === 0) return [];
  const { name } = await tx.company.findFirstOrThrow({ select: { name: true } });
  const people = await tx.member.findMany({
    where: { active: true, roles: { hasSome: ["supervisor", "owner"] } },
    select: { personId: true, email: true },
  });
  const lines = duties.map(
    ({ code, due_by, days_left, unit, circuit, customer, site }) =>
      `${whenWords(days_left)}, ${dateWords(due_by)}: ${DUTY_WORDS[code]}. ${unit}, ${circuit} (${customer}, ${site}).`,
  );
  return people.map(({ personId, email }) => ({
    id: `duties-${company}-${personId}-${now.toISOString().slice(0, 10)}`,
    fromName: name,
    to: email,
    subject: duties.length === 1 ? "One legal duty is due" : `${duties.length} legal duties are due`,
    body: `${lines.join("\n")}\n\nThey stand in Dryhold under Refrigerant, What is due.\n\n${DEFERRAL}\n`,
  }));
}

function whenWords(daysLeft: number): string {
  if (daysLeft < 0) return "Late since yesterday";
  if (daysLeft === 0) return "Today";
  return daysLeft === 1 ? "Tomorrow" : `In ${daysLeft} days`;
}
