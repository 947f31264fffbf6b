import "server-only";
import type { CriteriaRow } from "@/lib/hvac/procedure";
import type { CompanyFields } from "@/lib/registry/company";
import type { TenantTx } from "./tenant";

/** The company the transaction works for. */
export function findCompany(tx: TenantTx) {
  return tx.company.findFirstOrThrow();
}

export async function updateCompany(tx: TenantTx, fields: CompanyFields): Promise<void> {
  await tx.company.updateMany({ data: fields });
}

export async function updateTightenings(tx: TenantTx, rows: readonly CriteriaRow[]): Promise<void> {
  await tx.company.updateMany({ data: { criteria: [...rows] } });
}
