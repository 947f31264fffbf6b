import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { FieldProfileFields, WeekFields } from "@/lib/registry/field-time";
import { err, ok, type Result } from "@/lib/result";
import type { TenantTx } from "../tenant";

/** A person's week, times away and on call that are not over, base and van; null where there is no such person. */
export async function findFieldPerson(tx: TenantTx, personId: string, now: Date) {
  return tx.member.findFirst({
    where: { personId },
    select: {
      weeklyShifts: { orderBy: { weekday: "asc" } },
      personTimes: { where: { withdrawnAt: null, toAt: { gt: now } }, orderBy: { fromAt: "asc" } },
      fieldProfiles: true,
      vanStock: { where: { quantity: { gt: 0 } }, orderBy: { part: "asc" } },
    },
  });
}

/** Sets all seven days of the ordinary week. */
export async function setWeek(tx: TenantTx, personId: string, week: WeekFields): Promise<boolean> {
  if (!(await isMember(tx, personId))) return false;
  for (const { weekday, beginsMinute, endsMinute } of week)
    await tx.$executeRaw`
      insert into weekly_shift (person_id, weekday, begins_minute, ends_minute)
      values (${personId}::uuid, ${weekday}, ${beginsMinute}, ${endsMinute})
      on conflict (tenant_id, person_id, weekday)
      do update set begins_minute = excluded.begins_minute, ends_minute = excluded.ends_minute`;
  return true;
}

export async function addPersonTime(
  tx: TenantTx,
  personId: string,
  time: { kind: "away" | "on-call"; fromAt: Date; toAt: Date; note: string },
): Promise<string | null> {
  if (!(await isMember(tx, personId))) return null;
  const id = uuidv7();
  await tx.personTime.create({ data: { id, personId, ...time } });
  return id;
}

/** Takes back a time away or on call; false when there is none of this person. */
export async function withdrawPersonTime(tx: TenantTx, personId: string, id: string, at: Date): Promise<boolean> {
  const { count } = await tx.personTime.updateMany({
    where: { id, personId, withdrawnAt: null },
    data: { withdrawnAt: at },
  });
  return count === 1;
}

export async function setFieldProfile(
  tx: TenantTx,
  personId: string,
  fields: FieldProfileFields,
): Promise<Result<null, { code: "not-found" | "no-such-companion" }>> {
  if (!(await isMember(tx, personId))) return err({ code: "not-found" });
  if (fields.ridesWith !== null && (fields.ridesWith === personId || !(await isMember(tx, fields.ridesWith))))
    return err({ code: "no-such-companion" });
  const { count } = await tx.fieldProfile.updateMany({ where: { personId }, data: fields });
  if (count === 0) await tx.fieldProfile.create({ data: { personId, ...fields } });
  return ok(null);
}

async function isMember(tx: TenantTx, personId: string): Promise<boolean> {
  return (await tx.member.count({ where: { personId, active: true } })) === 1;
}
