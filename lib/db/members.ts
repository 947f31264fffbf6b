import "server-only";
import type { Role } from "@/lib/auth/roles";
import type { MemberFields } from "@/lib/registry/member";
import { err, ok, type Result } from "@/lib/result";
import type { TenantTx } from "./tenant";

/** Everyone of the company with their certificates; those who left last. */
export function listMembers(tx: TenantTx) {
  return tx.member.findMany({
    orderBy: [{ active: "desc" }, { name: "asc" }],
    include: { certificates: { orderBy: { kind: "asc" } } },
  });
}

export function findMemberOf(tx: TenantTx, personId: string) {
  return tx.member.findFirst({
    where: { personId },
    include: {
      certificates: { orderBy: { kind: "asc" } },
      tools: { where: { retiredAt: null }, orderBy: { name: "asc" } },
      cylinders: { where: { retiredAt: null }, orderBy: { label: "asc" } },
    },
  });
}

/** Those who may hold a tool or be sent somewhere. */
export function listActiveMembers(tx: TenantTx) {
  return tx.member.findMany({
    where: { active: true },
    orderBy: { name: "asc" },
    select: { personId: true, name: true, roles: true },
  });
}

export async function isMemberAddress(tx: TenantTx, email: string): Promise<boolean> {
  return (await tx.member.count({ where: { email, active: true } })) > 0;
}

export type MemberRefusal = { code: "not-found" | "last-owner" | "owner-role-is-an-owners" };

interface Standing {
  person_id: string;
  roles: string[];
  active: boolean;
}

/**
 * Changes name, phone, roles and whether the person still works here. The owners' rows are locked first, so that of
 * two owners who strike each other out at once one is refused. Only an owner gives or takes the owner's role.
 */
export async function updateMember(
  tx: TenantTx,
  personId: string,
  change: MemberFields & { active: boolean },
  byRoles: readonly Role[],
): Promise<Result<null, MemberRefusal>> {
  const rows = await tx.$queryRaw<Standing[]>`
    select person_id, roles, active from member
    where person_id = ${personId}::uuid or (active and 'owner' = any (roles)) order by person_id for update`;
  const before = rows.find((row) => row.person_id === personId);
  if (!before) return err({ code: "not-found" });
  const wasOwner = before.active && before.roles.includes("owner");
  const staysOwner = change.active && change.roles.includes("owner");
  const touchesOwner = before.roles.includes("owner") !== change.roles.includes("owner") || (wasOwner && !staysOwner);
  if (touchesOwner && !byRoles.includes("owner")) return err({ code: "owner-role-is-an-owners" });
  const otherOwners = rows.filter((row) => row.person_id !== personId && row.active && row.roles.includes("owner"));
  if (wasOwner && !staysOwner && otherOwners.length === 0) return err({ code: "last-owner" });
  await tx.member.updateMany({ where: { personId }, data: change });
  return ok(null);
}
